// What to do this week, each with one tap into the logbook.
import { useCallback, useEffect, useState } from 'preact/hooks';
import { ask, Refused, type Document, type Issue } from './door';
import { IssueList } from './fields';
import { FigureView } from './figures';
import type { Roof } from './roof_state';
import { words } from './words';

interface Tick {
  what: string;
  kind: string;
  item: string;
}

function Look({ look, tick, canTick, onTicked }: { look: Document; tick: Tick | undefined; canTick: boolean; onTicked: () => void }) {
  const [condition, setCondition] = useState('good');
  const [isSent, setIsSent] = useState(false);
  const [issues, setIssues] = useState<Issue[]>([]);
  const send = async () => {
    if (!tick) return;
    try {
      await ask('log', { kind: tick.kind, fields: { item: tick.item, condition } });
      setIsSent(true);
      onTicked();
    } catch (error) {
      setIssues(error instanceof Refused ? error.issues : []);
    }
  };
  return (
    <li class="task">
      <div>
        <strong>{look.what}</strong>
        <p>{look.how}</p>
        <p class="quiet small">
          {look.last ? `${words.week.last} ${look.last}` : words.week.never} · {words.week.every(look.every_days)} · {look.from}
        </p>
        <IssueList issues={issues} />
      </div>
      {canTick && tick && (
        <div class="row">
          <label class="field">
            <span>{words.week.condition}</span>
            <select value={condition} onChange={(event) => setCondition(event.currentTarget.value)}>
              {Object.entries(words.week.conditions).map(([key, label]) => (
                <option key={key} value={key}>{label}</option>
              ))}
            </select>
          </label>
          <button type="button" class="main" disabled={isSent} onClick={() => void send()} aria-label={`${words.week.tick}: ${look.what}`}>
            {isSent ? words.week.ticked : words.week.tick}
          </button>
        </div>
      )}
    </li>
  );
}

/// For a plain description: one button to a project, which keeps a logbook.
export function ProjectOffer({ roof }: { roof: Roof }) {
  return (
    <div class="banner">
      <p>{words.week.noLogbook}</p>
      <button type="button" onClick={() => void roof.makeProject()}>{words.week.makeProject}</button>
    </div>
  );
}

export function WeekView({ roof }: { roof: Roof }) {
  const [week, setWeek] = useState<Document | null>(null);
  const [issues, setIssues] = useState<Issue[]>([]);
  const [problem, setProblem] = useState('');
  const load = useCallback(() => {
    ask('week').then(setWeek, (error: unknown) => {
      if (error instanceof Refused) setIssues(error.issues);
      else setProblem(error instanceof Error ? error.message : String(error));
    });
  }, []);
  useEffect(load, [load, roof.state?.revision]);
  if (issues.length > 0) return <IssueList issues={issues} />;
  if (problem) return <p role="alert">{problem}</p>;
  if (!week) {
    return (
      <section class="wide" aria-label={words.week.title}>
        <h2>{words.week.title}</h2>
        <p class="quiet">{words.loading}</p>
      </section>
    );
  }
  const upkeep = week.upkeep as Document;
  const looks = upkeep.looks as Document[];
  const due = looks.filter((look) => look.is_due);
  const later = looks.filter((look) => !look.is_due);
  const tickOf = (look: Document) => (week.ticks as Tick[]).find((tick) => tick.what === look.what);
  const beside = (upkeep.cautions as Document[]).filter((one) => one.beside === 'work').slice(0, 2);
  return (
    <section class="wide" aria-label={words.week.title}>
      <h2>{words.week.title}</h2>
      <p class="quiet">
        {words.week.onDay} {upkeep.on}. {words.week.marked}
      </p>
      {!week.can_tick && <ProjectOffer roof={roof} />}
      <div class="caution">
        <strong>{words.caution}</strong>
        {beside.map((one) => <p key={one.id}>{one.text}</p>)}
      </div>
      <h3>{words.week.due}</h3>
      {due.length === 0 && <p>{words.week.nothingDue}</p>}
      <ul class="tasks">
        {due.map((look) => (
          <Look key={look.what} look={look} tick={tickOf(look)} canTick={week.can_tick} onTicked={load} />
        ))}
      </ul>
      {upkeep.forecast.length > 0 && (
        <>
          <h3>{words.week.parts}</h3>
          <FigureView figure={upkeep.forecast[0].replacements} name="parts" label={upkeep.forecast[0].month} />
          <p>{upkeep.forecast_statement}</p>
        </>
      )}
      {upkeep.after_storm.is_shown && (
        <>
          <h3>{words.week.storm}</h3>
          <ol>
            {upkeep.after_storm.steps.map((step: Document) => (
              <li key={step.text}>
                {step.text} {step.caution && <em>{step.caution}</em>}
              </li>
            ))}
          </ol>
        </>
      )}
      <h3>{words.week.later}</h3>
      <ul class="tasks">
        {later.map((look) => (
          <li key={look.what} class="task">
            <div>
              <strong>{look.what}</strong>
              <p class="quiet small">{words.week.dueOn} {look.due}</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
