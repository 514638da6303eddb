// What the page knows: the roof as it is saved, the answers to it, and a change that is not saved yet.
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { ask, Failed, Gone, Refused, Stale, type Change, type Document, type Issue, type State } from './door';

export type Saving = 'saved' | 'saving' | 'gone' | 'stale' | 'kept';

export interface Answers {
  quick: Document | null;
  quickOf: string; // the state of its weights, load and U-values
  runsOf: string; // the state of its runs of a year
  study: Document | null;
  studyOf: string;
  before: Record<string, string>; // sentences of the state before, by question
  doneFrac: number;
  isRunning: boolean;
  error: string;
}

interface Pending {
  from: string;
  changes: Change[];
}

const noAnswers: Answers = {
  quick: null, quickOf: '', runsOf: '', study: null, studyOf: '', before: {}, doneFrac: 0, isRunning: false, error: '',
};

const keyOf = (file: string) => `houseleek.pending.${file}`;

function readPending(file: string): Pending | null {
  try {
    const text = localStorage.getItem(keyOf(file));
    return text ? (JSON.parse(text) as Pending) : null;
  } catch {
    return null; // a browser that keeps nothing
  }
}
function keepPending(file: string, pending: Pending | null): void {
  try {
    if (pending) localStorage.setItem(keyOf(file), JSON.stringify(pending));
    else localStorage.removeItem(keyOf(file));
  } catch {
    // a browser that keeps nothing: the change is on its way all the same
  }
}

export interface Roof {
  state: State | null;
  saving: Saving;
  issues: Issue[]; // of the last change that was refused
  refusedFor: string; // which field asked for it
  problem: string;
  answers: Answers;
  edit: (changes: Change[], field?: string) => Promise<boolean>;
  undo: () => Promise<void>;
  redo: () => Promise<void>;
  replace: (text: string) => Promise<boolean>;
  makeProject: () => Promise<void>;
  begin: (given: Record<string, unknown>) => Promise<Issue[]>;
  reload: () => Promise<void>;
  again: () => Promise<void>;
  forget: () => void;
  stop: () => void;
  run: () => void;
  clearIssues: () => void;
}

export function useRoof(): Roof {
  const [state, setState] = useState<State | null>(null);
  const [saving, setSaving] = useState<Saving>('saved');
  const [issues, setIssues] = useState<Issue[]>([]);
  const [refusedFor, setRefusedFor] = useState('');
  const [problem, setProblem] = useState('');
  const [answers, setAnswers] = useState<Answers>(noAnswers);
  const latest = useRef<State | null>(null);
  const job = useRef(0);
  const round = useRef(0);
  // One save after the other: a second change waits for the revision that the first one makes.
  const chain = useRef<Promise<unknown>>(Promise.resolve());

  const show = useCallback((next: State) => {
    latest.current = next;
    setState(next);
  }, []);

  const answer = useCallback(async (revision: string) => {
    const mine = ++round.current;
    const is_mine = () => mine === round.current;
    setAnswers((old) => ({ ...old, isRunning: true, doneFrac: 0, error: '' }));
    try {
      // First what needs no run of a year; what does stands as it was and is marked so.
      const weights = await ask('quick', { without_runs: true });
      if (!is_mine()) return;
      setAnswers((old) => {
        const before = { ...old.before };
        for (const one of old.quick?.sentences ?? []) before[one.question] = one.text;
        for (const one of old.study?.answers ?? []) before[one.question] = one.text;
        const waiting = ((old.quick?.sentences ?? []) as Document[]).filter((one) => weights.still_running.includes(one.question));
        const quick = {
          ...weights,
          stacks: old.quick?.stacks ?? [],
          rooms: old.quick?.rooms ?? [],
          sentences: [...weights.sentences, ...waiting],
        };
        return { ...old, quick, quickOf: revision, before };
      });
      const quick = await ask('quick');
      if (!is_mine()) return;
      setAnswers((old) => ({ ...old, quick, runsOf: revision }));
      const begun = await ask<{ job: number }>('study');
      job.current = begun.job;
      while (is_mine()) {
        const look = await ask<{ is_over: boolean; is_cancelled: boolean; done_frac: number; result: Document | null }>(
          'job', { job: begun.job });
        if (!is_mine()) return;
        if (look.is_over) {
          const result = look.result;
          setAnswers((old) =>
            result
              ? { ...old, study: result, studyOf: revision, isRunning: false, doneFrac: 1 }
              : { ...old, isRunning: false });
          return;
        }
        setAnswers((old) => ({ ...old, doneFrac: look.done_frac }));
        await new Promise((resolve) => setTimeout(resolve, 300));
      }
    } catch (error) {
      if (!is_mine()) return;
      if (error instanceof Gone) setSaving('gone');
      setAnswers((old) => ({ ...old, isRunning: false, error: error instanceof Error ? error.message : String(error) }));
    }
  }, []);

  const take = useCallback((next: State) => {
    show(next);
    setSaving('saved');
    setIssues([]);
    setRefusedFor('');
    setProblem('');
    if (next.drawing) void answer(next.revision);
  }, [answer, show]);

  const fail = useCallback((error: unknown) => {
    if (error instanceof Gone) setSaving('gone');
    else if (error instanceof Stale) setSaving('stale');
    else if (error instanceof Refused) setIssues(error.issues);
    else setProblem(error instanceof Error ? error.message : String(error));
  }, []);

  const send = useCallback(async (changes: Change[], field: string): Promise<boolean> => {
    const from = latest.current;
    if (!from) return false;
    // What the page says of an earlier change stays until one is saved.
    setSaving((old) => (old === 'saved' ? 'saving' : old));
    keepPending(from.file, { from: from.revision, changes });
    try {
      const next = await ask<State>('edit', { from: from.revision, changes });
      keepPending(from.file, null);
      take(next);
      return true;
    } catch (error) {
      if (error instanceof Refused || error instanceof Failed) {
        keepPending(from.file, null);
        setSaving('saved');
      }
      setRefusedFor(field);
      fail(error);
      return false;
    }
  }, [fail, take]);

  const edit = useCallback((changes: Change[], field = '') => {
    const next = chain.current.then(() => send(changes, field));
    chain.current = next;
    return next;
  }, [send]);

  const reload = useCallback(async () => {
    try {
      const next = await ask<State>('state');
      const pending = readPending(next.file);
      take(next);
      if (!pending) return;
      // A change that the program had not acknowledged: made now if nothing came between, else offered.
      if (pending.from === next.revision) await edit(pending.changes);
      else setSaving('kept');
    } catch (error) {
      fail(error);
    }
  }, [edit, fail, take]);

  const step = useCallback((way: 'undo' | 'redo') => {
    // Behind a save that is on its way, whose revision it starts from.
    const next = chain.current.then(async () => {
      if (!latest.current) return;
      try {
        take(await ask<State>(way, { from: latest.current.revision }));
      } catch (error) {
        fail(error);
      }
    });
    chain.current = next;
    return next;
  }, [fail, take]);

  const again = useCallback(async () => {
    const file = latest.current?.file ?? '';
    const pending = readPending(file);
    keepPending(file, null);
    try {
      take(await ask<State>('state'));
      if (pending) await edit(pending.changes);
    } catch (error) {
      if (pending) keepPending(file, pending);
      fail(error);
    }
  }, [edit, fail, take]);

  const forget = useCallback(() => {
    keepPending(latest.current?.file ?? '', null);
    void reload();
  }, [reload]);

  useEffect(() => {
    void reload();
  }, [reload]);

  return {
    state, saving, issues, refusedFor, problem, answers, edit, reload, again, forget,
    undo: () => step('undo'),
    redo: () => step('redo'),
    replace: async (text) => {
      try {
        take(await ask<State>('replace', { from: latest.current?.revision ?? '', text }));
        return true;
      } catch (error) {
        setRefusedFor('text');
        fail(error);
        return false;
      }
    },
    makeProject: async () => {
      try {
        take(await ask<State>('make_project'));
      } catch (error) {
        fail(error);
      }
    },
    begin: async (given) => {
      try {
        take(await ask<State>('new', { answers: given }));
        return [];
      } catch (error) {
        if (error instanceof Refused) return error.issues;
        fail(error);
        return [];
      }
    },
    stop: () => {
      round.current += 1;
      void ask('cancel', { job: job.current }).catch(fail);
      setAnswers((old) => ({ ...old, isRunning: false }));
    },
    run: () => {
      if (latest.current?.drawing) void answer(latest.current.revision);
    },
    clearIssues: () => setIssues([]),
  };
}
