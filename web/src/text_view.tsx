// The description byte for byte, for whatever has no button, and where its problems are shown by line.
import { useEffect, useState } from 'preact/hooks';
import { ask, type Issue } from './door';
import type { Roof } from './roof_state';
import { words } from './words';

export function TextView({ roof, standing }: { roof: Roof; standing: Issue[] }) {
  const [text, setText] = useState<string | null>(null);
  useEffect(() => {
    // Where it cannot be had the page says so at its head.
    ask<{ text: string }>('text').then((answer) => setText(answer.text), () => undefined);
  }, [roof.state?.revision]);
  const issues = roof.refusedFor === 'text' && roof.issues.length > 0 ? roof.issues : standing;
  return (
    <section class="wide" aria-label={words.text.title}>
      <h2>{words.text.title}</h2>
      {issues.length > 0 && (
        <div class="banner" role="alert">
          <strong>{words.issuesTitle}</strong>
          <p>{words.issuesHelp}</p>
          <ol>
            {issues.map((issue) => (
              <li key={issue.path + issue.message}>
                {issue.line !== null && <span class="quiet">{`${words.line} ${issue.line}: `}</span>}
                {issue.message}
                {issue.hint && <p class="quiet">{`${words.hint}: ${issue.hint}`}</p>}
              </li>
            ))}
          </ol>
        </div>
      )}
      <p class="quiet">{words.text.help}</p>
      {text !== null && (
        <>
          <textarea aria-label={words.text.label} spellcheck={false} rows={28} value={text}
                    onInput={(event) => setText(event.currentTarget.value)} />
          <button type="button" class="main" onClick={() => void roof.replace(text)}>{words.text.save}</button>
        </>
      )}
    </section>
  );
}
