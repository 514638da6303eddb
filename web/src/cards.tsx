// The questions, each with the engine's sentence, its figures with their ranges, its caution, and why.
import { useContext, useState } from 'preact/hooks';
import { CoverBars } from './bars';
import { ask, type Document, type Figure } from './door';
import { Details } from './fields';
import { FigureView, isFigure, plainName, shown, Units } from './figures';
import type { Answers, Roof } from './roof_state';
import { words } from './words';

interface Shown {
  label: string;
  name: string; // of the field, which says its unit
  figure: Figure | null | undefined;
}

interface Card {
  id: keyof typeof words.questions;
  asked: string[]; // the names of its sentences in the answers
  cautions: string[]; // what a caution stands beside
  figures: (quick: Document, study: Document | null) => Shown[];
  why: (quick: Document, study: Document | null) => unknown;
  assumed: RegExp;
}

const cards: Card[] = [
  {
    id: 'sound', asked: [], cautions: ['roof'], assumed: /^$/,
    figures: () => [], why: () => null,
  },
  {
    id: 'carry', asked: ['1 Carry it?', '  Stay down?'], cautions: ['load', 'wind'], assumed: /^(roof\.(structure|allowable|actions)|wind)/,
    figures: (quick, study) => [
      { label: 'soaked, heaviest square', name: 'soaked_max_kn_per_m2', figure: quick.load.soaked_max_kn_per_m2 },
      { label: 'of what is allowed', name: 'utilisation_local_max_frac', figure: quick.load.utilisation_local_max_frac },
      { label: 'gust a dry module is not shown to stay above', name: 'not_shown_above_km_per_h', figure: study?.wind.not_shown_above_km_per_h },
    ],
    why: (quick, study) => ({ cases: quick.load.cases, feet: quick.load.feet, wind: study?.wind.patches }),
  },
  {
    id: 'made', asked: ['2 Made of?'], cautions: ['fire'], assumed: /^(recipe|material)/,
    figures: (quick) =>
      quick.recipes.flatMap((recipe: Document) => [
        { label: `${recipe.name}, dry`, name: 'mass_dry_kg_per_m2', figure: recipe.mass_dry_kg_per_m2 },
        { label: `${recipe.name}, soaked`, name: 'mass_soaked_kg_per_m2', figure: recipe.mass_soaked_kg_per_m2 },
      ]),
    why: (quick, study) => ({ recipes: quick.recipes, fire: study?.fire.recipes }),
  },
  {
    id: 'cooler', asked: ['3 Cooler?', '  Warmer?', '  Dry?', 'Rivals?'], cautions: ['damp'], assumed: /^(room|roof\.finish|site)/,
    figures: (quick) =>
      quick.stacks.map((stack: Document) => ({
        label: stack.form === 'bare' ? 'membrane, bare' : `membrane under ${stack.name}, ${stack.form}`,
        name: 'membrane_max_c', figure: stack.membrane_max_c,
      })),
    why: (quick, study) => ({ stacks: study?.stacks ?? quick.stacks, rivals: study?.rivals.map((one: Document) => one.statement), damp: study?.damp }),
  },
  {
    id: 'fans', asked: ['4 Fans?'], cautions: ['rooms'], assumed: /^room/,
    figures: (quick) =>
      quick.rooms.flatMap((room: Document) => [
        { label: `${room.name}, bare`, name: 'hours_above_limit', figure: room.bare.hours_above_limit },
        { label: `${room.name}, planted`, name: 'hours_above_limit', figure: room.planted.hours_above_limit },
      ]),
    why: (quick) => ({ rooms: quick.rooms }),
  },
  {
    id: 'drain', asked: ['5 Drain?'], cautions: ['drainage'], assumed: /^(roof\.outlet|drainage|design_rain)/,
    figures: (_quick, study) => [
      { label: 'water that stays', name: 'standing_mm', figure: study?.drainage.standing_mm },
      { label: 'until it is dry', name: 'days_to_dry', figure: study?.drainage.days_to_dry },
    ],
    why: (_quick, study) => ({ cases: study?.drainage.cases, outlets: study?.drainage.outlets }),
  },
  {
    id: 'water', asked: ['6 Water?'], cautions: ['water'], assumed: /watering|plant/,
    figures: (_quick, study) => [
      { label: 'watering in a year', name: 'watering_l_per_module', figure: study?.water.watering_l_per_module },
      { label: 'kept of rain and watering', name: 'retained_frac', figure: study?.water.retained_frac },
    ],
    why: (_quick, study) => study?.water,
  },
  {
    id: 'live', asked: ['7 Live?'], cautions: ['plants'], assumed: /plant/, figures: () => [],
    why: (_quick, study) => study?.plants,
  },
  {
    id: 'cost', asked: ['8 Cost?'], cautions: [], assumed: /^(prices|money|tariff)/,
    figures: (_quick, study) => [
      { label: `outlay, ${study?.money.currency ?? ''}`, name: 'outlay', figure: study?.money.outlay },
      { label: `to renew in a year, ${study?.money.currency ?? ''}`, name: 'replacement_per_year', figure: study?.money.replacement_per_year },
      { label: `cash saved in a year, ${study?.money.currency ?? ''}`, name: 'cash_saving_per_year', figure: study?.money.cash_saving_per_year },
      { label: 'CO₂ to make', name: 'made_kg', figure: study?.carbon.made_kg },
    ],
    why: (_quick, study) => ({ payback_why: study?.money.payback_why, recipes: study?.money.recipes, over_all_years: study?.money.over_all_years, carbon: study?.carbon.statement }),
  },
  {
    id: 'next', asked: ['9 Next?'], cautions: [], assumed: /^order/,
    figures: () => [],
    why: (_quick, study) => ({ steps: study?.order, about: study?.order_about.statement }),
  },
  { id: 'buy', asked: [], cautions: [], assumed: /^$/, figures: () => [], why: () => null },
];

/// Any part of a document as tables: figures with their ranges, texts as they are.
function Tree({ value, name }: { value: unknown; name: string }) {
  const system = useContext(Units);
  if (value === null || value === undefined) return null;
  if (isFigure(value)) return <FigureView figure={value} name={name} />;
  if (typeof value === 'number') {
    const one = shown(value, name, system);
    return <span>{`${one.number} ${one.unit}`}</span>;
  }
  if (typeof value === 'boolean') return <span>{value ? 'yes' : 'no'}</span>;
  if (typeof value === 'string') return <span>{value}</span>;
  if (Array.isArray(value)) {
    if (value.length === 0) return null;
    return (
      <ol class="tree">
        {value.map((one, index) => (
          <li key={index}>
            <Tree value={one} name={name} />
          </li>
        ))}
      </ol>
    );
  }
  return (
    <dl class="tree">
      {Object.entries(value as Document)
        .filter(([, one]) => one !== null && one !== '' && !(Array.isArray(one) && one.length === 0))
        .map(([key, one]) => (
          <div key={key}>
            <dt>{plainName(key)}</dt>
            <dd>
              <Tree value={one} name={key} />
            </dd>
          </div>
        ))}
    </dl>
  );
}

function Assumed({ study, paths }: { study: Document | null; paths: RegExp }) {
  const system = useContext(Units);
  const list = (study?.assumed ?? []).filter((one: Document) => paths.test(one.path)) as Document[];
  if (list.length === 0) return null;
  return (
    <>
      <h4>{words.assumed}</h4>
      <div class="scroll" tabIndex={0} role="region" aria-label={words.assumed}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.figure}</th>
              <th scope="col">{words.low}</th>
              <th scope="col">{words.likely}</th>
              <th scope="col">{words.high}</th>
              <th scope="col">{words.assumedSource}</th>
            </tr>
          </thead>
          <tbody>
            {list.map((one) => (
              <tr key={one.path}>
                <th scope="row">{one.name}</th>
                {[one.low, one.likely, one.high].map((number: number, index) => {
                  const name = `x_${one.path.split('.').pop()}`;
                  const text = shown(number, name, system);
                  return <td key={index}>{`${text.number} ${text.unit}`}</td>;
                })}
                <td class="quiet">{one.source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function sentencesOf(card: Card, answers: Answers): { text: string; question: string; isQuick: boolean }[] {
  const quick = (answers.quick?.sentences ?? []) as { question: string; text: string }[];
  const study = (answers.study?.answers ?? []) as { question: string; text: string }[];
  const is_whole = answers.studyOf === answers.quickOf;
  return card.asked.flatMap((question) => {
    // The full answer's sentence says more; until it is of this state, the quick one is the newer.
    const from_study = study.filter((one) => one.question === question);
    const from_quick = quick.filter((one) => one.question === question);
    const has_quick = !is_whole && from_quick.length > 0;
    // Of the runs of the state before it is no answer yet.
    const isQuick = has_quick && (answers.runsOf === answers.quickOf || !(answers.quick?.still_running ?? []).includes(question));
    return (has_quick ? from_quick : from_study.length > 0 ? from_study : from_quick).map((one) => ({ ...one, isQuick }));
  });
}

function QuestionCard({ card, answers }: { card: Card; answers: Answers }) {
  const quick = answers.quick;
  const study = answers.study;
  const is_whole = answers.studyOf === answers.quickOf && !!study;
  const sentences = sentencesOf(card, answers);
  const question = words.questions[card.id];
  const cautions = ((study?.cautions ?? []) as Document[]).filter((one) => card.cautions.includes(one.beside));
  const figures = quick ? card.figures(quick, study).filter((one) => one.figure) : [];
  const waits = !is_whole && sentences.some((one) => !one.isQuick);
  const why = quick ? card.why(quick, study) : null;
  const id = `card-${card.id}`;
  return (
    <article class={`card ${waits ? 'is-old' : ''}`} aria-labelledby={id}>
      <h3 id={id}>
        <span class="number">{question.short}</span> {question.title}
      </h3>
      {card.asked.length === 0 && <p class="quiet">{words.notYet}</p>}
      {card.asked.length > 0 && sentences.length === 0 && <p class="badge">{words.stillRunning}</p>}
      {sentences.map((one) => {
        const before = answers.before[one.question];
        const has_changed = is_whole && before !== undefined && before !== one.text;
        return (
          <p key={one.question + one.text} class="sentence">
            {one.text}
            {!is_whole && !one.isQuick && <span class="badge">{study ? `${words.oldAnswer} · ${words.stillRunning}` : words.stillRunning}</span>}
            {has_changed && (
              <span class="badge is-new" title={`${words.before}: ${before}`}>
                {words.changed}
              </span>
            )}
          </p>
        );
      })}
      {figures.length > 0 && (
        <div class="figures">
          {figures.map((one) => (
            <FigureView key={one.label} figure={one.figure} name={one.name} label={one.label} />
          ))}
        </div>
      )}
      {cautions.length > 0 && (
        <div class="caution">
          <strong>{words.caution}</strong>
          {cautions.slice(0, 2).map((one) => (
            <p key={one.id}>{one.text}</p>
          ))}
          {cautions.length > 2 && (
            <Details summary={words.moreCautions(cautions.length - 2)}>
              {cautions.slice(2).map((one) => (
                <p key={one.id}>{one.text}</p>
              ))}
            </Details>
          )}
        </div>
      )}
      {why !== null && quick && (
        <Details summary={words.why}>
          {card.id === 'cooler' && study && <CoverBars rooms={study.rooms} />}
          <Tree value={why} name="" />
          <Assumed study={study} paths={card.assumed} />
        </Details>
      )}
    </article>
  );
}

function Downloads({ isReady }: { isReady: boolean }) {
  const [making, setMaking] = useState('');
  const [problem, setProblem] = useState('');
  const take = async (kind: 'engineer' | 'roofer') => {
    setMaking(kind);
    setProblem('');
    try {
      const page = await ask<{ html: string; name: string }>('hand_page', { kind });
      const link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([page.html], { type: 'text/html' }));
      link.download = page.name;
      link.click();
      URL.revokeObjectURL(link.href);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
    setMaking('');
  };
  return (
    <div class="row">
      {(['engineer', 'roofer'] as const).map((kind) => (
        <button key={kind} type="button" disabled={!isReady || making !== ''} onClick={() => void take(kind)}>
          {making === kind ? words.download.making : words.download[kind]}
        </button>
      ))}
      {problem && <span role="alert">{problem}</span>}
    </div>
  );
}

export function Cards({ roof }: { roof: Roof }) {
  const { answers } = roof;
  const is_whole = !!answers.study && answers.studyOf === answers.quickOf;
  return (
    <section class="cards" aria-label={words.views.roof}>
      <div class="progress" role="status">
        {answers.error ? (
          <p>
            {words.studyFailed}: {answers.error} <button type="button" onClick={roof.run}>{words.runAll}</button>
          </p>
        ) : answers.isRunning ? (
          <p>
            <progress max={1} value={answers.doneFrac} aria-label={words.working} /> {words.working}…{' '}
            <button type="button" onClick={roof.stop}>{words.cancel}</button>
          </p>
        ) : is_whole ? (
          <p class="quiet">{words.done}</p>
        ) : (
          <p>
            {words.stopped} <button type="button" onClick={roof.run}>{words.runAll}</button>
          </p>
        )}
      </div>
      <Downloads isReady={is_whole} />
      {cards.map((card) => (
        <QuestionCard key={card.id} card={card} answers={answers} />
      ))}
    </section>
  );
}
