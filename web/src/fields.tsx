// Fields that keep what is typed until it is saved, and carry the engine's own message where it was refused.
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import type { Issue } from './door';

function draftOf(key: string): string | null {
  try {
    return localStorage.getItem(`houseleek.draft.${key}`);
  } catch {
    return null;
  }
}
function keepDraft(key: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(`houseleek.draft.${key}`);
    else localStorage.setItem(`houseleek.draft.${key}`, text);
  } catch {
    // a browser that keeps nothing
  }
}

export function IssueList({ issues, id }: { issues: Issue[]; id?: string }) {
  if (issues.length === 0) return null;
  return (
    <ul class="issues" id={id} role="alert">
      {issues.map((issue) => (
        <li key={issue.path + issue.message}>
          <strong>{issue.message}</strong>
          {issue.hint && <span class="quiet"> {issue.hint}</span>}
        </li>
      ))}
    </ul>
  );
}

export interface NumberFieldProps {
  label: string;
  unit: string;
  value: number;
  draft: string; // under this name what is typed is kept through a reload
  issues: Issue[];
  onSave: (value: number) => Promise<boolean>;
  hideLabel?: boolean;
}

/// Saves when it is left or Enter is pressed; Escape brings the saved value back.
export function NumberField({ label, unit, value, draft, issues, onSave, hideLabel }: NumberFieldProps) {
  const id = useId();
  const [text, setText] = useState(draftOf(draft) ?? String(value));
  useEffect(() => {
    if (draftOf(draft) === null) setText(String(value));
  }, [value, draft]);
  const isDraft = text !== String(value);
  // Enter and then leaving the field ask once.
  const tried = useRef<string | null>(null);
  const save = async () => {
    if (!isDraft || tried.current === text) return;
    tried.current = text;
    // What is no number goes to the engine as it is, which says so.
    const number = text.trim() === '' ? NaN : Number(text.replace(',', '.'));
    const is_saved = await onSave(Number.isFinite(number) ? number : (text as unknown as number));
    if (is_saved) keepDraft(draft, null);
  };
  return (
    <label class={`field ${issues.length > 0 ? 'is-wrong' : ''} ${isDraft ? 'is-draft' : ''}`}>
      <span class={hideLabel ? 'unseen' : ''}>{label}</span>
      <span class="with-unit">
        <input
          type="text"
          inputMode="decimal"
          value={text}
          aria-invalid={issues.length > 0}
          aria-describedby={issues.length > 0 ? id : undefined}
          onInput={(event) => {
            const typed = event.currentTarget.value;
            setText(typed);
            tried.current = null;
            keepDraft(draft, typed === String(value) ? null : typed);
          }}
          onBlur={() => void save()}
          onKeyDown={(event) => {
            if (event.key === 'Enter') void save();
            if (event.key === 'Escape') {
              keepDraft(draft, null);
              setText(String(value));
            }
          }}
        />
        <span class="unit">{unit}</span>
      </span>
      <IssueList issues={issues} id={id} />
    </label>
  );
}

export function Details({ summary, children }: { summary: string; children: ComponentChildren }) {
  return (
    <details>
      <summary>{summary}</summary>
      <div class="details">{children}</div>
    </details>
  );
}
