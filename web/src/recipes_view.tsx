// Recipes layer by layer, with the section to scale and what it comes to at once.
import { useEffect, useState } from 'preact/hooks';
import { ask, type Change, type Document, type Drawing, type Recipe } from './door';
import { IssueList, NumberField } from './fields';
import { FigureView } from './figures';
import type { Roof } from './roof_state';
import { words } from './words';

interface Choices {
  materials: { name: string; form: string; is_own: boolean }[];
}

/// Layers in their thickness; what is too thin for its label gets the label beside it.
function Section({ recipe, deck }: { recipe: Recipe; deck: Drawing['roof']['deck'] }) {
  const membrane = deck[0];
  const is_raised = recipe.placed === 'raised' && recipe.spacer_height_mm > 0;
  const rows = [
    ...(recipe.net ? [{ kind: 'net', name: `${words.recipes.net}: ${recipe.net.material}`, mm: 4 }, { kind: 'air', name: '', mm: Math.min(recipe.net.height_mm, 300) }] : []),
    { kind: 'plants', name: recipe.plants.map((plant) => plant.name).join(', ') || words.recipes.none, mm: Math.max(20, recipe.plant_height_mm) },
    ...(recipe.cover ? [{ kind: 'cover', name: `${words.recipes.cover}: ${recipe.cover.material}`, mm: recipe.cover.thickness_mm }] : []),
    ...recipe.layers.map((layer) => ({ kind: layer.role, name: layer.material, mm: layer.thickness_mm })),
    ...(is_raised ? [{ kind: 'air', name: words.recipes.gap, mm: recipe.spacer_height_mm }] : []),
    { kind: 'deck', name: membrane ? membrane.material : words.recipes.deck, mm: 20 },
  ];
  let y = 0;
  const named = rows.map((row, index) => ({
    number: index + 1,
    text: row.kind === 'plants' || row.kind === 'deck' ? row.name : `${row.name}, ${row.mm} mm`,
    mm: row.mm,
    kind: row.kind,
  }));
  const total = named.reduce((sum, row) => sum + row.mm, 0);
  const least = 20; // so that numbers do not lie on one another
  let mark = -4;
  return (
    <div class="section">
      <svg viewBox={`0 0 220 ${Math.max(total, named.length * least) + 20}`} role="img"
           aria-label={`${words.recipes.section}: ${named.map((row) => row.text).join('; ')}`}>
        {named.map((row) => {
          const top = y + 4;
          y += row.mm;
          mark = Math.max(mark + least, top + row.mm / 2);
          return (
            <g key={row.number}>
              <rect class={`cut cut-${row.kind}`} x="4" y={top} width="150" height={row.mm} />
              <path class="leader" d={`M154 ${top + row.mm / 2}L178 ${mark}`} />
              <text x="184" y={mark + 6}>{row.number}</text>
            </g>
          );
        })}
      </svg>
      <ol>
        {named.map((row) => <li key={row.number}>{row.text}</li>)}
      </ol>
    </div>
  );
}

function QuickFigures({ roof, index }: { roof: Roof; index: number }) {
  const quick = roof.answers.quick;
  const recipe = quick?.recipes[index] as Document | undefined;
  const is_now = roof.answers.quickOf === roof.state?.revision;
  const has_runs = is_now && roof.answers.runsOf === roof.state?.revision;
  if (!quick || !recipe) return <p class="badge">{words.stillRunning}</p>;
  const placed = recipe.raised ?? recipe.flat;
  const stacks = (quick.stacks as Document[]).filter((stack) => stack.name === recipe.name || stack.form === 'bare');
  return (
    <div class={is_now ? '' : 'is-old'}>
      <h4>
        {words.recipes.quick} {!is_now && <span class="badge">{words.stillRunning}</span>}
      </h4>
      <div class="figures">
        <FigureView figure={recipe.mass_dry_kg_per_m2} name="mass_dry_kg_per_m2" label={words.recipes.dry} />
        <FigureView figure={recipe.mass_drained_kg_per_m2} name="mass_drained_kg_per_m2" label={words.recipes.drained} />
        <FigureView figure={recipe.mass_soaked_kg_per_m2} name="mass_soaked_kg_per_m2" label={words.recipes.soaked} />
        <FigureView figure={placed.u_value_dry_w_per_m2_k} name="u_value_dry_w_per_m2_k" label={words.recipes.u} />
        {!has_runs && <p class="badge">{`${words.recipes.membrane}: ${words.stillRunning}`}</p>}
        {has_runs && stacks.map((stack) => (
          <FigureView key={stack.form} figure={stack.membrane_max_c} name="membrane_max_c"
                      label={`${words.recipes.membrane}, ${stack.form === 'bare' ? words.recipes.bare : stack.form}`} />
        ))}
      </div>
      <p class="sentence">{quick.load.statement}</p>
      <div class="caution">
        <strong>{words.caution}</strong>
        <p>{(roof.answers.study?.cautions ?? []).find((one: Document) => one.beside === 'load')?.text ?? quick.load.uniform.statement}</p>
      </div>
    </div>
  );
}

function RecipeEditor({ roof, recipe, index, drawing, choices }: {
  roof: Roof; recipe: Recipe; index: number; drawing: Drawing; choices: Choices | null;
}) {
  const at = `recipe[${index}]`;
  const edit = (changes: Change[], field: string) => roof.edit(changes, field);
  const issuesAt = (path: string) =>
    roof.refusedFor === path ? roof.issues.filter((issue) => issue.path === path || roof.issues.length === 1) : [];
  const others = roof.refusedFor.startsWith(at)
    ? roof.issues.filter((issue) => issue.path !== roof.refusedFor && roof.issues.length > 1) : [];
  const id = `recipe-${index}`;
  return (
    <article class="card recipe" aria-labelledby={id}>
      <h3 id={id}>{recipe.name}</h3>
      <div class="recipe-parts">
        <figure>
          <figcaption class="quiet">{words.recipes.section}</figcaption>
          <Section recipe={recipe} deck={drawing.roof.deck} />
        </figure>
        <div>
          <ol class="layers">
            {recipe.layers.map((layer, place) => {
              const path = `${at}.layer[${place}]`;
              return (
                <li key={place}>
                  <div class="row">
                    <label class="field">
                      <span>{words.recipes.roles[layer.role] ?? layer.role}</span>
                      <select
                        value={layer.material}
                        onChange={(event) => void edit([{ set: `${path}.material`, value: event.currentTarget.value }], `${path}.material`)}
                      >
                        {!choices?.materials.some((one) => one.name === layer.material) && <option>{layer.material}</option>}
                        {choices?.materials.map((one) => <option key={one.name}>{one.name}</option>)}
                      </select>
                      <IssueList issues={issuesAt(`${path}.material`)} />
                    </label>
                    <NumberField
                      label={words.recipes.thickness}
                      unit="mm"
                      value={layer.thickness_mm}
                      draft={`${roof.state?.file}.${path}.thickness_mm`}
                      issues={issuesAt(`${path}.thickness_mm`)}
                      onSave={(value) => edit([{ set: `${path}.thickness_mm`, value }], `${path}.thickness_mm`)}
                    />
                    <span class="row buttons">
                      <button type="button" disabled={place === 0} aria-label={`${words.recipes.up}: ${layer.material}`}
                              onClick={() => void edit([{ move: `${at}.layer`, from: place, to: place - 1 }], `${at}.layer`)}>↑</button>
                      <button type="button" disabled={place === recipe.layers.length - 1} aria-label={`${words.recipes.down}: ${layer.material}`}
                              onClick={() => void edit([{ move: `${at}.layer`, from: place, to: place + 1 }], `${at}.layer`)}>↓</button>
                      <button type="button" disabled={recipe.layers.length === 1} aria-label={`${words.recipes.remove}: ${layer.material}`}
                              onClick={() => void edit([{ remove: path }], path)}>{words.recipes.remove}</button>
                    </span>
                  </div>
                </li>
              );
            })}
          </ol>
          <div class="row">
            <label class="field">
              <span>{words.recipes.add}</span>
              <select
                value=""
                onChange={(event) => {
                  const material = event.currentTarget.value;
                  event.currentTarget.value = '';
                  if (material) {
                    void edit([{ insert: `${at}.layer`, fields: { role: 'core', material, thickness_mm: 20 } }], `${at}.layer`);
                  }
                }}
              >
                <option value="">{words.recipes.chooseMaterial}</option>
                {choices?.materials.map((one) => <option key={one.name}>{one.name}</option>)}
              </select>
            </label>
            <NumberField
              label={words.recipes.spacer}
              unit="mm"
              value={recipe.spacer_height_mm}
              draft={`${roof.state?.file}.${at}.spacer.height_mm`}
              issues={issuesAt(`${at}.spacer.height_mm`)}
              onSave={(value) => edit([{ set: `${at}.spacer.height_mm`, value }], `${at}.spacer.height_mm`)}
            />
          </div>
          <IssueList issues={others} />
          <QuickFigures roof={roof} index={index} />
        </div>
      </div>
    </article>
  );
}

export function RecipesView({ roof, drawing }: { roof: Roof; drawing: Drawing }) {
  const [choices, setChoices] = useState<Choices | null>(null);
  useEffect(() => {
    // Without the list the material in use stays; the next opening of this view asks again.
    ask<Choices>('choices').then(setChoices, () => undefined);
  }, []);
  return (
    <section class="wide" aria-label={words.recipes.title}>
      <h2>{words.recipes.title}</h2>
      {drawing.recipes.map((recipe, index) => (
        <RecipeEditor key={index} roof={roof} recipe={recipe} index={index} drawing={drawing} choices={choices} />
      ))}
    </section>
  );
}
