// Ten plain questions to a first description. The engine says what is asked, within which limits, and what is wrong.
import { useEffect, useRef, useState } from 'preact/hooks';
import { ask, type Issue } from './door';
import { IssueList } from './fields';
import type { Roof } from './roof_state';
import { words } from './words';

interface Field {
  key: string;
  label: string;
  kind: 'text' | 'number' | 'whole' | 'choice' | 'flag';
  unit: string;
  choices: { word: string; meaning: string }[];
  usual: string;
  is_optional: boolean;
}
interface Question {
  title: string;
  help: string;
  fields: Field[];
}

const kept = 'houseleek.begin';

function keptAnswers(): Record<string, string> {
  try {
    return JSON.parse(localStorage.getItem(kept) ?? '{}') as Record<string, string>;
  } catch {
    return {};
  }
}

/// As the engine wants it: numbers as numbers where they are some; it says itself what is none.
function valueOf(field: Field, text: string): unknown {
  if (field.kind === 'flag') return text === 'true';
  if (field.kind !== 'number' && field.kind !== 'whole') return text;
  const number = Number(text.replace(',', '.'));
  return text.trim() !== '' && Number.isFinite(number) ? number : text;
}

export function BeginView({ roof }: { roof: Roof }) {
  const [questions, setQuestions] = useState<Question[]>([]);
  const [given, setGiven] = useState<Record<string, string>>(keptAnswers());
  const [at, setAt] = useState(0);
  const [issues, setIssues] = useState<Issue[]>([]);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    ask<{ questions: Question[] }>('questions').then(
      (answer) => setQuestions(answer.questions),
      (error: unknown) => setIssues([{ message: String(error) } as Issue]),
    );
  }, []);
  useEffect(() => heading.current?.focus(), [at]);
  const question = questions[at];
  const textOf = (field: Field) =>
    given[field.key] ?? (field.key === 'time_zone' ? Intl.DateTimeFormat().resolvedOptions().timeZone : field.usual);
  const set = (key: string, text: string) => {
    const next = { ...given, [key]: text };
    setGiven(next);
    try {
      localStorage.setItem(kept, JSON.stringify(next));
    } catch {
      // a browser that keeps nothing
    }
  };
  const make = async () => {
    const answers: Record<string, unknown> = {};
    for (const field of questions.flatMap((one) => one.fields)) answers[field.key] = valueOf(field, textOf(field));
    const wrong = await roof.begin(answers);
    setIssues(wrong);
    const first = questions.findIndex((one) => one.fields.some((field) => wrong.some((issue) => issue.path === field.key)));
    if (first >= 0) setAt(first);
    if (wrong.length === 0) localStorage.removeItem(kept);
  };
  if (!question) return <p class="quiet">{words.loading}</p>;
  const is_last = at === questions.length - 1;
  const keys = new Set(questions.flatMap((one) => one.fields.map((field) => field.key)));
  return (
    <section class="wide begin" aria-label={words.begin.title}>
      <p class="lead">{words.begin.lead}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (is_last) void make();
          else setAt(at + 1);
        }}
      >
        <p class="quiet">{`${at + 1} ${words.begin.of} ${questions.length}`}</p>
        <progress max={questions.length} value={at + 1} aria-hidden="true" />
        <h2 ref={heading} tabIndex={-1}>{question.title}</h2>
        {question.help && <p>{question.help}</p>}
        {question.fields.map((field) => {
          const wrong = issues.filter((issue) => issue.path === field.key);
          const id = `begin-${field.key}`;
          const common = { id, 'aria-invalid': wrong.length > 0, 'aria-describedby': wrong.length > 0 ? `${id}-issue` : undefined };
          return (
            <div key={field.key} class={`field ${wrong.length > 0 ? 'is-wrong' : ''}`}>
              <label for={id}>
                {field.label} {field.is_optional && <small class="quiet">({words.begin.optional})</small>}
              </label>
              {field.kind === 'choice' ? (
                <select {...common} value={textOf(field)} onChange={(event) => set(field.key, event.currentTarget.value)}>
                  {field.choices.map((choice) => (
                    <option key={choice.word} value={choice.word}>{choice.meaning}</option>
                  ))}
                </select>
              ) : field.kind === 'flag' ? (
                <span class="with-unit">
                  <input {...common} type="checkbox" checked={textOf(field) === 'true'}
                         onChange={(event) => set(field.key, String(event.currentTarget.checked))} />
                  <span class="unit">{words.begin.yes}</span>
                </span>
              ) : (
                <span class="with-unit">
                  <input {...common} type="text" inputMode={field.kind === 'text' ? 'text' : 'decimal'} value={textOf(field)}
                         onInput={(event) => set(field.key, event.currentTarget.value)} />
                  <span class="unit">{field.unit === 'degC' ? '°C' : field.unit === 'deg' ? '°' : field.unit}</span>
                </span>
              )}
              <IssueList issues={wrong} id={`${id}-issue`} />
            </div>
          );
        })}
        <IssueList issues={issues.filter((issue) => !keys.has(issue.path))} />
        <div class="row">
          {at > 0 && <button type="button" onClick={() => setAt(at - 1)}>{words.begin.back}</button>}
          <button type="submit" class="main">{is_last ? words.begin.make : words.begin.next}</button>
        </div>
      </form>
    </section>
  );
}
