// The one way to the engine: request documents out, answer documents in. Nothing is worked out here.
export interface Issue {
  code: string;
  severity: 'error' | 'warning';
  path: string;
  file: string;
  line: number | null;
  column: number | null;
  value: string;
  limit: string;
  message: string;
  hint: string;
}

export interface Figure {
  value: number | null;
  low?: number;
  high?: number;
  from?: string;
  no_range_because?: string;
  why?: string;
}

export type Point = [number, number];

export interface Rectangle {
  left_m: number;
  bottom_m: number;
  right_m: number;
  top_m: number;
}

export interface Module extends Rectangle {
  patch: number;
  recipe: number;
  placed: 'raised' | 'flat';
}

export interface Layer {
  role: string;
  material: string;
  thickness_mm: number;
}

export interface Sheet {
  material: string;
  thickness_mm: number;
  height_mm: number;
}

export interface Recipe {
  name: string;
  length_mm: number;
  width_mm: number;
  placed: 'raised' | 'flat';
  spacer_height_mm: number;
  plant_height_mm: number;
  layers: Layer[];
  cover: Sheet | null;
  net: Sheet | null;
  plants: { name: string; cover_frac: number }[];
}

export interface SquareGrid {
  left_m: number;
  bottom_m: number;
  side_m: number;
  columns: number;
  rows: number;
}

export interface Drawing {
  design: string;
  is_invented: boolean;
  currency: string;
  time_zone: string;
  roof: {
    outline: Point[];
    area_m2: number;
    north_deg: number;
    fall_mm_per_m: number | null;
    fall_towards_deg: number | null;
    parapet_height_mm: number | null;
    deck: { material: string; thickness_mm: number }[];
    outlets: { name: string; at: Point; diameter_mm: number }[];
    obstacles: { name: string; outline: Point[] }[];
    hollows: { name: string; outline: Point[]; depth_mm: number }[];
  };
  squares: SquareGrid;
  rooms: { name: string; outline: Point[]; is_bedroom: boolean }[];
  recipes: Recipe[];
  modules: Module[];
  containers: (Rectangle & { name: string; at: Point; is_round: boolean })[];
  warnings: Issue[];
}

export interface State {
  file: string;
  is_there: boolean;
  is_project: boolean;
  revision: string;
  n_steps: number;
  can_undo: boolean;
  can_redo: boolean;
  version: string;
  issues: Issue[];
  drawing: Drawing | null;
}

export type Change =
  | { set: string; value: unknown }
  | { insert: string; before?: number; fields: Record<string, unknown> }
  | { remove: string }
  | { move: string; from: number; to: number }
  | { modules: number[]; shift_m: Point }
  | { modules: number[]; recipe: string }
  | { modules: number[]; placed: 'flat' | 'raised' }
  | { modules: number[]; remove: true };

// A study's document is read by its fields' names; the schema of each stands in schema/.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export type Document = Record<string, any>;

/// The engine's own list of what is wrong with what was asked.
export class Refused extends Error {
  constructor(readonly issues: Issue[]) {
    super(issues.map((issue) => issue.message).join('; '));
  }
}
/// Somebody else has saved meanwhile.
export class Stale extends Error {
  constructor(readonly revision: string) {
    super('stale');
  }
}
/// The program is not there any more.
export class Gone extends Error {}
export class Failed extends Error {}

const token = location.hash.slice(1);

export async function ask<T = Document>(request: string, body: unknown = {}): Promise<T> {
  let response: Response;
  try {
    response = await fetch(`/api/${request}`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-Houseleek-Token': token },
      body: JSON.stringify(body),
    });
  } catch {
    throw new Gone();
  }
  const answer = (await response.json()) as Document;
  if (response.ok) return answer as T;
  if (response.status === 422) throw new Refused(answer.issues as Issue[]);
  if (response.status === 409 && typeof answer.revision === 'string') throw new Stale(answer.revision);
  if (response.status === 401) throw new Gone();
  throw new Failed(String(answer.error ?? response.status));
}
