// The frame of the page: name, what is saved, undo, and the views.
import { useEffect, useState } from 'preact/hooks';
import { BeginView } from './begin_view';
import { IssueList } from './fields';
import { Units, type UnitSystem } from './figures';
import { HandView } from './hand_view';
import { RecipesView } from './recipes_view';
import { useRoof, type Roof } from './roof_state';
import { RoofView } from './roof_view';
import { TextView } from './text_view';
import { WeekView } from './week_view';
import { words } from './words';

type View = keyof typeof words.views;

function Banner({ roof }: { roof: Roof }) {
  if (roof.problem) {
    return <div class="banner" role="alert">{roof.problem}</div>;
  }
  if (roof.saving === 'gone') return <div class="banner" role="alert">{words.gone}</div>;
  if (roof.saving === 'stale') {
    return (
      <div class="banner" role="alert">
        <p>{words.stale}</p>
        <div class="row">
          <button type="button" onClick={roof.forget}>{words.loadNewer}</button>
          <button type="button" onClick={() => void roof.again()}>{words.againOnNewer}</button>
        </div>
      </div>
    );
  }
  if (roof.saving === 'kept') {
    return (
      <div class="banner" role="alert">
        <p>{words.keptChange}</p>
        <div class="row">
          <button type="button" onClick={() => void roof.again()}>{words.doAgain}</button>
          <button type="button" onClick={roof.forget}>{words.forget}</button>
        </div>
      </div>
    );
  }
  // Where no field has asked for it, the engine's message stands here.
  const is_placed = roof.refusedFor !== '';
  return is_placed || roof.issues.length === 0 ? null : <div class="banner"><IssueList issues={roof.issues} /></div>;
}

function keptUnits(): UnitSystem {
  try {
    return localStorage.getItem('houseleek.units') === 'us' ? 'us' : 'metric';
  } catch {
    return 'metric';
  }
}

export function App() {
  const roof = useRoof();
  const [view, setView] = useState<View>('week');
  const [system, setSystem] = useState<UnitSystem>(keptUnits());
  const { state } = roof;
  useEffect(() => {
    document.title = state?.drawing ? `${state.drawing.design} · ${words.product}` : words.product;
  }, [state?.drawing]);
  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      // In a field these keys belong to what is being typed.
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) {
        event.preventDefault();
        void roof.undo();
      } else if (key === 'y' || (key === 'z' && event.shiftKey)) {
        event.preventDefault();
        void roof.redo();
      }
    };
    addEventListener('keydown', keys);
    return () => removeEventListener('keydown', keys);
  });
  if (!state) {
    return (
      <main class="wide">
        <h1>{words.product}</h1>
        <Banner roof={roof} />
        {!roof.problem && roof.saving !== 'gone' && <p>{words.loading}</p>}
      </main>
    );
  }
  if (!state.is_there) {
    return (
      <main class="wide">
        <h1>{words.begin.title}</h1>
        <Banner roof={roof} />
        <BeginView roof={roof} />
      </main>
    );
  }
  const { drawing } = state;
  const shownView: View = drawing ? view : 'text';
  return (
    <Units.Provider value={system}>
      <a class="skip" href="#content" onClick={(event) => {
        // The address keeps its token.
        event.preventDefault();
        document.getElementById('content')?.focus();
      }}>{words.skip}</a>
      <header class="head">
        <div class="names">
          <h1>{drawing?.design || state.file}</h1>
          {drawing?.is_invented && <p class="marked">{words.invented}</p>}
        </div>
        <nav aria-label={words.product}>
          {(Object.keys(words.views) as View[]).map((one) => (
            <button key={one} type="button" aria-current={one === shownView ? 'page' : undefined} onClick={() => setView(one)}>
              {words.views[one]}
            </button>
          ))}
        </nav>
        <div class="row state">
          <span role="status" class={roof.saving === 'saved' ? 'quiet' : 'badge'}>
            {roof.saving === 'saved' ? words.saved : roof.saving === 'saving' ? words.saving : words.notSaved}
          </span>
          <button type="button" title={words.undoTitle} disabled={!state.can_undo} onClick={() => void roof.undo()}>{words.undo}</button>
          <button type="button" title={words.redoTitle} disabled={!state.can_redo} onClick={() => void roof.redo()}>{words.redo}</button>
          <label class="field inline">
            <span class="unseen">{words.units}</span>
            <select value={system} onChange={(event) => {
              const next = event.currentTarget.value as UnitSystem;
              setSystem(next);
              try {
                localStorage.setItem('houseleek.units', next);
              } catch {
                // a browser that keeps nothing
              }
            }}>
              <option value="metric">{words.metric}</option>
              <option value="us">{words.us}</option>
            </select>
          </label>
        </div>
      </header>
      <main id="content" tabIndex={-1}>
        <Banner roof={roof} />
        {!drawing || shownView === 'text' ? (
          <TextView roof={roof} standing={state.issues} />
        ) : shownView === 'week' ? (
          <WeekView roof={roof} />
        ) : shownView === 'roof' ? (
          <RoofView roof={roof} drawing={drawing} />
        ) : shownView === 'recipes' ? (
          <RecipesView roof={roof} drawing={drawing} />
        ) : (
          <HandView roof={roof} />
        )}
      </main>
      <footer class="quiet small">{`${words.product} ${state.version} · ${state.file}`}</footer>
    </Units.Provider>
  );
}
