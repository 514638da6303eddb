// What to do this week, today's first, each with one tap into the logbook.
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { ask, Gone, Refused, type Document, type Figure, type Issue } from './door';
import { IssueList } from './fields';
import { FigureView } from './figures';
import type { Roof } from './roof_state';
import { words } from './words';

interface Asked {
  key: string;
  text: string;
  is_needed: boolean; // a place; an event without one would say something else
  unit: string;
}

interface Tick {
  kind: string;
  fields: Record<string, string>;
  asked: Asked[];
}

interface Item {
  id: string;
  urgency: number;
  due: string;
  what: string;
  where: string | null;
  why: string;
  figure: Figure;
  unit: string | null;
  caution: string | null;
  log_command: string;
}

interface Answer {
  week: Document;
  ticks: Record<string, Tick | null>;
}

function AskedField({ asked, text, rooms, isWrong, onText }: {
  asked: Asked; text: string; rooms: string[]; isWrong: boolean; onText: (text: string) => void;
}) {
  const choices: [string, string][] =
    asked.key === 'condition' ? Object.entries(words.week.conditions) : asked.key === 'room' ? rooms.map((room) => [room, room]) : [];
  return (
    <label class={`field ${isWrong ? 'is-wrong' : ''}`}>
      <span>{words.week.asked[asked.key] ?? asked.key}</span>
      {choices.length > 0 ? (
        <select value={text} onChange={(event) => onText(event.currentTarget.value)}>
          {text === '' && <option value="" />}
          {choices.map(([key, label]) => <option key={key} value={key}>{label}</option>)}
        </select>
      ) : (
        <span class="with-unit">
          <input value={text} inputMode={asked.unit ? 'decimal' : 'text'} onInput={(event) => onText(event.currentTarget.value)} />
          {asked.unit && <span class="unit">{asked.unit}</span>}
        </span>
      )}
    </label>
  );
}

function Task({ item, tick, canTick, rooms, onTicked }: {
  item: Item; tick: Tick | null; canTick: boolean; rooms: string[]; onTicked: () => void;
}) {
  const [texts, setTexts] = useState<Record<string, string>>(() =>
    Object.fromEntries((tick?.asked ?? []).map((one) => [one.key, one.key === 'room' && rooms.length === 1 ? rooms[0] ?? '' : one.text])));
  const [isSent, setIsSent] = useState(false);
  const [issues, setIssues] = useState<Issue[]>([]);
  const [problem, setProblem] = useState('');
  const send = async () => {
    if (!tick) return;
    setIsSent(true);
    setIssues([]);
    setProblem('');
    // What stays empty is not said; where it must not, the engine says so.
    const said = tick.asked.filter((one) => one.is_needed || texts[one.key] !== '');
    const given = Object.fromEntries(said.map((one) => [one.key, texts[one.key] ?? '']));
    try {
      await ask('log', { kind: tick.kind, fields: { ...tick.fields, ...given } });
      onTicked();
    } catch (error) {
      setIsSent(false);
      if (error instanceof Refused) setIssues(error.issues);
      else setProblem(error instanceof Gone ? words.gone : error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <li class="task">
      <div>
        <strong>{item.what}</strong>
        {item.where && <p>{words.week.where}: {item.where}</p>}
        <p class="quiet small">{item.why}</p>
        {item.figure.value === null ? (
          <p class="quiet small">{item.figure.why}</p>
        ) : (
          <FigureView figure={item.figure} name="" label={item.unit ?? ''} />
        )}
        <p class="quiet small">{words.week.due} {item.due}</p>
        {item.caution && (
          <div class="caution">
            <strong>{words.caution}</strong>
            <p>{item.caution}</p>
          </div>
        )}
        <IssueList issues={issues} />
        {problem && <p role="alert">{problem}</p>}
      </div>
      {canTick && tick && (
        <div class="row">
          {tick.asked.map((one) => (
            <AskedField key={one.key} asked={one} text={texts[one.key] ?? ''} rooms={rooms} isWrong={issues.some((issue) => issue.path === one.key)}
              onText={(text) => setTexts((old) => ({ ...old, [one.key]: text }))} />
          ))}
          <label class="tick">
            <input type="checkbox" checked={isSent} disabled={isSent} onChange={() => void send()} aria-label={`${words.week.tick}: ${item.what}`} />
            <span>{isSent ? words.week.ticked : words.week.tick}</span>
          </label>
        </div>
      )}
      {canTick && !tick && <p class="small">{words.week.by} <code>{item.log_command}</code></p>}
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

function Sentences({ title, list }: { title: string; list: string[] }) {
  if (list.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul class="sentences">{list.map((one) => <li key={one}>{one}</li>)}</ul>
    </>
  );
}

export function WeekView({ roof }: { roof: Roof }) {
  const [answer, setAnswer] = useState<Answer | null>(null);
  const [isWorking, setIsWorking] = useState(true);
  const [issues, setIssues] = useState<Issue[]>([]);
  const [problem, setProblem] = useState('');
  const round = useRef(0);
  const load = useCallback(async () => {
    const mine = ++round.current;
    const is_mine = () => mine === round.current;
    setIsWorking(true);
    try {
      const { job } = await ask<{ job: number }>('week');
      while (is_mine()) {
        const look = await ask<{ is_over: boolean; result: Answer | null }>('week_job', { job });
        if (!is_mine()) return;
        if (look.is_over) {
          if (!look.result) return void load(); // another window has begun anew
          setAnswer(look.result);
          setIssues([]);
          setProblem('');
          break;
        }
        await new Promise((resolve) => setTimeout(resolve, 200));
      }
    } catch (error) {
      if (!is_mine()) return;
      if (error instanceof Refused) setIssues(error.issues);
      else setProblem(error instanceof Gone ? words.gone : error instanceof Error ? error.message : String(error));
    }
    if (is_mine()) setIsWorking(false);
  }, []);
  useEffect(() => {
    void load();
    return () => {
      round.current += 1;
    };
  }, [load, roof.state?.revision, roof.state?.is_project]);
  const week = answer?.week;
  const rooms = (roof.state?.drawing?.rooms ?? []).map((room) => room.name);
  return (
    <section class="wide" aria-label={words.week.title}>
      <h2>{words.week.title}</h2>
      {!roof.state?.is_project && <ProjectOffer roof={roof} />}
      <div role="status">{isWorking && <p class="badge">{words.week.working}</p>}</div>
      <IssueList issues={issues} />
      {problem && <p role="alert">{words.week.failed}: {problem} <button type="button" onClick={() => void load()}>{words.runAll}</button></p>}
      {answer && week && (
        <>
          <p>{week.first_day} – {week.last_day}. {week.statement}</p>
          {week.water_cans.value > 0 && (
            <div class="figures">
              <FigureView figure={week.water_cans} name="" label={words.week.cans} />
              <FigureView figure={week.water_minutes} name="" label={words.week.minutes} />
            </div>
          )}
          {words.week.urgency.map((title, urgency) => {
            const items = (week.items as Item[]).filter((item) => item.urgency === urgency);
            return items.length === 0 ? null : (
              <>
                <h3>{title}</h3>
                <ul class="tasks">
                  {items.map((item) => (
                    <Task key={`${item.id} ${week.engine.input_hash}`} item={item} tick={answer.ticks[item.id] ?? null}
                      canTick={week.has_logbook} rooms={rooms} onTicked={() => void load()} />
                  ))}
                </ul>
              </>
            );
          })}
          <Sentences title={words.week.nothingFor} list={week.can_wait} />
          <Sentences title={words.week.better} list={week.missing} />
        </>
      )}
    </section>
  );
}
