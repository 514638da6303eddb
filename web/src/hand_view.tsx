// For the roof itself: large targets, one hand, straight into the logbook.
import { useState } from 'preact/hooks';
import { ask, Gone, Refused, type Document, type Issue } from './door';
import { IssueList } from './fields';
import type { Roof } from './roof_state';
import { ProjectOffer } from './week_view';
import { words } from './words';

const deeds = [
  { kind: 'watered', label: words.hand.water, field: 'water_l', ask: words.hand.litres, unit: 'l', start: 8, step: 1, wantsPlace: false },
  { kind: 'read_off', label: words.hand.read, field: 'temperature_c', ask: words.hand.degrees, unit: '°C', start: 25, step: 0.5, wantsPlace: true },
  { kind: 'weighed', label: words.hand.weigh, field: 'mass_kg', ask: words.hand.kilos, unit: 'kg', start: 60, step: 0.5, wantsPlace: true },
  { kind: 'looked_at', label: words.hand.look, field: 'note', ask: words.hand.note, unit: '', start: 0, step: 0, wantsPlace: false },
] as const;

export function HandView({ roof }: { roof: Roof }) {
  const [at, setAt] = useState(0);
  const [place, setPlace] = useState('');
  const [amount, setAmount] = useState('8');
  const [noted, setNoted] = useState('');
  const [issues, setIssues] = useState<Issue[]>([]);
  const deed = deeds[at] ?? deeds[0];
  const keep = async () => {
    setIssues([]);
    setNoted('');
    const fields: Record<string, string> = { [deed.field]: amount };
    if (place) fields.module = place;
    try {
      const answer = await ask<Document>('log', { kind: deed.kind, fields });
      setNoted(`${words.hand.kept} ${answer.noted}`);
    } catch (error) {
      // What was typed stays in its fields.
      setIssues(error instanceof Refused ? error.issues : []);
      if (error instanceof Gone) setNoted(words.gone);
    }
  };
  const choose = (index: number) => {
    setAt(index);
    setIssues([]);
    setNoted('');
    const next = deeds[index];
    setAmount(next && next.step > 0 ? String(next.start) : '');
  };
  return (
    <section class="wide hand" aria-label={words.hand.title}>
      <h2>{words.hand.title}</h2>
      <p class="quiet">{words.hand.help}</p>
      {!roof.state?.is_project && <ProjectOffer roof={roof} />}
      <div class="deeds" role="group" aria-label={words.hand.title}>
        {deeds.map((one, index) => (
          <button key={one.kind} type="button" aria-pressed={index === at} onClick={() => choose(index)}>
            {one.label}
          </button>
        ))}
      </div>
      <label class={`field ${issues.some((issue) => issue.path === 'module') ? 'is-wrong' : ''}`}>
        <span>{words.hand.where}</span>
        <input value={place} autoCapitalize="characters" onInput={(event) => setPlace(event.currentTarget.value)} />
      </label>
      <label class={`field ${issues.some((issue) => issue.path === deed.field) ? 'is-wrong' : ''}`}>
        <span>{deed.ask}</span>
        <span class="with-unit stepper">
          {deed.step > 0 && (
            <button type="button" aria-label={`${deed.ask} −`} onClick={() => setAmount(String(Number(amount) - deed.step))}>−</button>
          )}
          <input inputMode={deed.step > 0 ? 'decimal' : 'text'} value={amount} onInput={(event) => setAmount(event.currentTarget.value)} />
          {deed.unit && <span class="unit">{deed.unit}</span>}
          {deed.step > 0 && (
            <button type="button" aria-label={`${deed.ask} +`} onClick={() => setAmount(String(Number(amount) + deed.step))}>+</button>
          )}
        </span>
      </label>
      <IssueList issues={issues} />
      <button type="button" class="main big" disabled={!roof.state?.is_project} onClick={() => void keep()}>
        {words.hand.keep}
      </button>
      <p role="status">{noted}</p>
    </section>
  );
}
