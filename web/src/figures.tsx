// Numbers as a person reads them: by locale, in metric or US units. Only how they look is decided here.
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Figure } from './door';
import { words } from './words';

export type UnitSystem = 'metric' | 'us';
export const Units = createContext<UnitSystem>('metric');

interface Scale {
  unit: string;
  us?: { unit: string; times: number; plus?: number };
}

// By the end of a field's name, the longest first.
const scales: [string, Scale][] = [
  ['_kwh_per_m2', { unit: 'kWh/m²' }],
  ['_w_per_m2_k', { unit: 'W/m²K', us: { unit: 'BTU/h ft² °F', times: 0.176110 } }],
  ['_kg_per_m2', { unit: 'kg/m²', us: { unit: 'lb/ft²', times: 0.204816 } }],
  ['_kn_per_m2', { unit: 'kN/m²', us: { unit: 'lb/ft²', times: 20.8854 } }],
  ['_km_per_h', { unit: 'km/h', us: { unit: 'mph', times: 0.621371 } }],
  ['_mm_per_h', { unit: 'mm/h', us: { unit: 'in/h', times: 0.0393701 } }],
  ['_l_per_module', { unit: 'l a module', us: { unit: 'gal a module', times: 0.264172 } }],
  ['_k_h', { unit: 'K h', us: { unit: '°F h', times: 1.8 } }],
  ['_mm', { unit: 'mm', us: { unit: 'in', times: 0.0393701 } }],
  ['_m2', { unit: 'm²', us: { unit: 'ft²', times: 10.7639 } }],
  ['_kpa', { unit: 'kPa', us: { unit: 'psi', times: 0.145038 } }],
  ['_kwh', { unit: 'kWh' }],
  ['_kn', { unit: 'kN', us: { unit: 'lbf', times: 224.809 } }],
  ['_kg', { unit: 'kg', us: { unit: 'lb', times: 2.20462 } }],
  ['_frac', { unit: '%', us: { unit: '%', times: 1 } }],
  ['_years', { unit: 'years' }],
  ['_m', { unit: 'm', us: { unit: 'ft', times: 3.28084 } }],
  ['_c', { unit: '°C', us: { unit: '°F', times: 1.8, plus: 32 } }],
  ['_k', { unit: 'K', us: { unit: '°F', times: 1.8 } }],
  ['_h', { unit: 'h' }],
  ['_l', { unit: 'l', us: { unit: 'gal', times: 0.264172 } }],
];

function scaleOf(key: string): Scale {
  const found = scales.find(([end]) => key.endsWith(end));
  if (found) return found[1];
  return { unit: key.includes('hours') ? 'h' : key.includes('days') ? 'days' : '' };
}

export function shown(value: number, key: string, system: UnitSystem): { number: string; unit: string } {
  const scale = scaleOf(key);
  let number = key.endsWith('_frac') ? value * 100 : value;
  let unit = scale.unit;
  if (system === 'us' && scale.us) {
    number = number * scale.us.times + (scale.us.plus ?? 0);
    unit = scale.us.unit;
  }
  const size = Math.abs(number);
  const digits = size >= 100 || size === 0 ? 0 : size >= 10 ? 1 : size >= 0.1 ? 2 : 3;
  const format = new Intl.NumberFormat(undefined, { maximumFractionDigits: digits });
  return { number: format.format(number), unit };
}

/// 42.6 °C, and below it its low and high end, or why there is none.
export function FigureView({ figure, name, label }: { figure: Figure | null | undefined; name: string; label?: string }) {
  const system = useContext(Units);
  if (!figure) return null;
  if (figure.value === null || figure.value === undefined) {
    return (
      <span class="figure">
        {label && <span class="label">{label}</span>}
        <span class="value">{words.notKnown}</span>
        <span class="range">{figure.why ?? ''}</span>
      </span>
    );
  }
  const likely = shown(figure.value, name, system);
  const has_range = figure.low !== undefined && figure.high !== undefined;
  return (
    <span class="figure">
      {label && <span class="label">{label}</span>}
      <span class="value">
        {likely.number} <small>{likely.unit}</small>
      </span>
      {has_range ? (
        <span class="range" title={figure.from}>
          {words.low} {shown(figure.low as number, name, system).number} · {words.high}{' '}
          {shown(figure.high as number, name, system).number}
        </span>
      ) : (
        <span class="range">
          {words.noRange}: {figure.no_range_because}
        </span>
      )}
    </span>
  );
}

export function isFigure(value: unknown): value is Figure {
  return (
    typeof value === 'object' &&
    value !== null &&
    'value' in value &&
    ('from' in value || 'no_range_because' in value || 'why' in value)
  );
}

/// hours_above_limit as "hours above limit"; the unit at its end goes.
export function plainName(key: string): string {
  const end = scales.map(([one]) => one).find((one) => key.endsWith(one) && key.length > one.length);
  return (end ? key.slice(0, -end.length) : key).replaceAll('_', ' ');
}
