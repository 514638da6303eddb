// The drawing with what can be done to what is picked, beside the questions.
import { useContext, useMemo, useState } from 'preact/hooks';
import { Cards } from './cards';
import { RoofDrawing, squareValues } from './drawing';
import type { Drawing, Point } from './door';
import { Details, IssueList } from './fields';
import { Units } from './figures';
import type { Roof } from './roof_state';
import { words } from './words';

const step_m = 0.1;

export function RoofView({ roof, drawing }: { roof: Roof; drawing: Drawing }) {
  const system = useContext(Units);
  const [picked, setPicked] = useState<Set<number>>(new Set());
  const [isLaying, setIsLaying] = useState(false);
  const [tint, setTint] = useState('none');
  const [layX, setLayX] = useState('1');
  const [layY, setLayY] = useState('1');
  const [layRecipe, setLayRecipe] = useState(0);
  const values = useMemo(() => squareValues(roof.answers.study, tint, system), [roof.answers.study, tint, system]);
  const chosen = [...picked].filter((index) => index < drawing.modules.length).sort((a, b) => a - b);

  const change = async (what: { shift_m: Point } | { recipe: string } | { placed: 'flat' | 'raised' } | { remove: true }) => {
    if (chosen.length === 0) return;
    const is_done = await roof.edit([{ modules: chosen, ...what } as never], 'modules');
    // Modules that were moved keep their numbers; else these may have changed with the patches.
    if (is_done && !('shift_m' in what)) setPicked(new Set());
  };
  const lay = async (at: Point) => {
    const recipe = drawing.recipes[layRecipe];
    if (!recipe) return;
    const is_done = await roof.edit([{ insert: 'patch', fields: { recipe: recipe.name, at: [at] } }], 'lay');
    if (is_done) setIsLaying(false);
  };
  const refused = roof.refusedFor === 'modules' || roof.refusedFor === 'lay' ? roof.issues : [];
  const none = chosen.length === 0;
  return (
    <div class="two">
      <section class="stay" aria-label={words.roof.title}>
        <h2>{words.roof.title}</h2>
        <RoofDrawing
          drawing={drawing}
          values={values}
          picked={picked}
          isLaying={isLaying}
          onPick={setPicked}
          onMove={(shift) => void change({ shift_m: shift })}
          onLay={(at) => void lay(at)}
          onTake={() => void change({ remove: true })}
          beside={
            <>
              <label class="field">
            <span>{words.roof.tint}</span>
            <select value={tint} onChange={(event) => setTint(event.currentTarget.value)}>
              {Object.entries(words.roof.tints).map(([key, label]) => (
                <option key={key} value={key}>
                  {label}
                </option>
              ))}
            </select>
          </label>
          {tint !== 'none' && values.length === 0 && <span class="badge">{words.roof.tintWaits}</span>}
            </>
          }
        />
        <div class="tools" role="group" aria-label={`${chosen.length} ${words.roof.picked}`}>
          <p class="quiet">{none ? words.roof.pickNone : `${chosen.length} ${words.roof.picked}`}</p>
          <div class="row">
            <button type="button" onClick={() => setPicked(new Set(drawing.modules.keys()))}>{words.roof.pickAll}</button>
            <button type="button" disabled={none} onClick={() => setPicked(new Set())}>{words.roof.pickNoneButton}</button>
          </div>
          <div class="row">
            <button type="button" disabled={none} onClick={() => void change({ shift_m: [-step_m, 0] })}>← <span class="unseen">{words.roof.left}</span></button>
            <button type="button" disabled={none} onClick={() => void change({ shift_m: [step_m, 0] })}>→ <span class="unseen">{words.roof.right}</span></button>
            <button type="button" disabled={none} onClick={() => void change({ shift_m: [0, step_m] })}>↑ <span class="unseen">{words.roof.up}</span></button>
            <button type="button" disabled={none} onClick={() => void change({ shift_m: [0, -step_m] })}>↓ <span class="unseen">{words.roof.down}</span></button>
            <button type="button" disabled={none} onClick={() => void change({ placed: 'raised' })}>{words.roof.raise}</button>
            <button type="button" disabled={none} onClick={() => void change({ placed: 'flat' })}>{words.roof.flat}</button>
            <button type="button" disabled={none} onClick={() => void change({ remove: true })}>{words.roof.take}</button>
          </div>
          <label class="field">
            <span>{words.roof.recipe}</span>
            <select
              disabled={none}
              value=""
              onChange={(event) => {
                const name = event.currentTarget.value;
                event.currentTarget.value = '';
                if (name) void change({ recipe: name });
              }}
            >
              <option value="">–</option>
              {drawing.recipes.map((recipe) => (
                <option key={recipe.name} value={recipe.name}>{recipe.name}</option>
              ))}
            </select>
          </label>
        </div>
        <fieldset class="tools">
          <legend>{words.roof.lay}</legend>
          <div class="row">
            <label class="field">
              <span>{words.roof.recipe}</span>
              <select value={layRecipe} onChange={(event) => setLayRecipe(Number(event.currentTarget.value))}>
                {drawing.recipes.map((recipe, index) => (
                  <option key={recipe.name} value={index}>{recipe.name}</option>
                ))}
              </select>
            </label>
            <label class="field short">
              <span>{words.roof.x}</span>
              <span class="with-unit">
                <input inputMode="decimal" value={layX} onInput={(event) => setLayX(event.currentTarget.value)} />
                <span class="unit">m</span>
              </span>
            </label>
            <label class="field short">
              <span>{words.roof.y}</span>
              <span class="with-unit">
                <input inputMode="decimal" value={layY} onInput={(event) => setLayY(event.currentTarget.value)} />
                <span class="unit">m</span>
              </span>
            </label>
            <button type="button" onClick={() => void lay([Number(layX), Number(layY)])}>{words.roof.put}</button>
            <button type="button" aria-pressed={isLaying} onClick={() => setIsLaying(!isLaying)}>{words.roof.layHelp}</button>
          </div>
        </fieldset>
        {refused.length > 0 && (
          <div class="banner" role="alert">
            <strong>{words.roof.refused}</strong>
            <IssueList issues={refused} />
          </div>
        )}
        <Details summary={words.roof.table}>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.roof.module}</th>
                <th scope="col">{words.roof.recipe}</th>
                <th scope="col">{words.roof.x}</th>
                <th scope="col">{words.roof.y}</th>
                <th scope="col">{words.roof.raised}</th>
              </tr>
            </thead>
            <tbody>
              {drawing.modules.map((module, index) => (
                <tr key={index}>
                  <th scope="row">{index + 1}</th>
                  <td>{drawing.recipes[module.recipe]?.name}</td>
                  <td>{module.left_m.toFixed(2)} m</td>
                  <td>{module.bottom_m.toFixed(2)} m</td>
                  <td>{module.placed === 'raised' ? words.roof.raised : words.roof.flatWord}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Details>
      </section>
      <Cards roof={roof} />
    </div>
  );
}
