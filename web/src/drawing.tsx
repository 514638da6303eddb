// The roof to scale: the way in (pick, move, lay, raise, take away) and the way out (numbers in the squares).
import type { ComponentChildren } from 'preact';
import { memo } from 'preact/compat';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Document, Drawing, Module, Point } from './door';
import { shown, type UnitSystem } from './figures';
import { words } from './words';

const scale = 100; // drawing units a metre
const edge = 0.9; // metres left round the roof, for scale and arrow
const rampSteps = 7;

export interface SquareValue {
  name: string;
  value: number;
  text: string;
}

/// The numbers a full answer has for the squares, by what was asked for.
export function squareValues(study: Document | null, tint: string, system: UnitSystem): SquareValue[] {
  if (!study) return [];
  const [list, key] =
    tint === 'weight' ? [study.load.squares, 'soaked_kn_per_m2']
    : tint === 'depth' ? [study.drainage.squares, 'depth_mm']
    : tint === 'wind' ? [study.wind.squares, 'not_shown_above_km_per_h']
    : [[], ''];
  return (list as Document[])
    .filter((square) => typeof square[key]?.value === 'number')
    .map((square) => ({
      name: square.name,
      value: square[key].value,
      text: shown(square[key].value, key, system).number,
    }));
}

function squareAt(name: string): { column: number; row: number } {
  const letters = name.replace(/\d+$/, '');
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return { column: column - 1, row: Number(name.slice(letters.length)) - 1 };
}

const pathOf = (outline: Point[], top: number) =>
  `M${outline.map(([x, y]) => `${x * scale} ${(top - y) * scale}`).join('L')}Z`;

interface ModuleShapeProps {
  module: Module;
  index: number;
  top: number;
  recipe: string;
  isPicked: boolean;
  isActive: boolean;
}

const ModuleShape = memo(function ModuleShape({ module, index, top, recipe, isPicked, isActive }: ModuleShapeProps) {
  const x = module.left_m * scale;
  const y = (top - module.top_m) * scale;
  const width = (module.right_m - module.left_m) * scale;
  const height = (module.top_m - module.bottom_m) * scale;
  return (
    <g
      id={`module-${index}`}
      role="option"
      aria-selected={isPicked}
      aria-label={`${words.roof.module} ${index + 1}, ${recipe}, ${module.placed === 'raised' ? words.roof.raised : words.roof.flatWord}`}
      data-module={index}
      class={`module recipe-${module.recipe % 4} ${module.placed} ${isPicked ? 'is-picked' : ''} ${isActive ? 'is-active' : ''}`}
    >
      {module.placed === 'raised' && <rect class="under" x={x + 6} y={y + 6} width={width} height={height} />}
      <rect class="top" x={x} y={y} width={width} height={height} />
      <text x={x + width / 2} y={y + height / 2}>
        {index + 1}
      </text>
    </g>
  );
});

export interface RoofDrawingProps {
  drawing: Drawing;
  values: SquareValue[];
  picked: ReadonlySet<number>;
  isLaying: boolean;
  onPick: (picked: Set<number>) => void;
  onMove: (shift: Point) => void;
  onLay: (at: Point) => void;
  onTake: () => void;
  beside: ComponentChildren; // the buttons of the drawing
}

interface Pull {
  kind: 'pan' | 'modules';
  x: number;
  y: number;
  moved: boolean;
  index: number;
}

export function RoofDrawing(props: RoofDrawingProps) {
  const { drawing, values, picked, isLaying, onPick, onMove, onLay, onTake } = props;
  const xs = drawing.roof.outline.map(([x]) => x);
  const ys = drawing.roof.outline.map(([, y]) => y);
  const left = Math.min(...xs);
  const right = Math.max(...xs);
  const bottom = Math.min(...ys);
  const top = Math.max(...ys);
  const svg = useRef<SVGSVGElement>(null);
  const ground = useRef<SVGGElement>(null);
  const carried = useRef<SVGGElement>(null);
  const view = useRef({ x: 0, y: 0, zoom: 1 });
  const pull = useRef<Pull | null>(null);
  const [active, setActive] = useState(0);
  const [hasFocus, setHasFocus] = useState(false);

  // Panning and zooming touch one attribute and draw nothing anew, however many modules there are.
  const place = () => {
    const { x, y, zoom } = view.current;
    ground.current?.setAttribute('transform', `translate(${x} ${y}) scale(${zoom})`);
  };
  const zoomBy = (times: number) => {
    const middleX = ((left + right) / 2) * scale;
    const middleY = ((top - bottom) / 2) * scale;
    const zoom = Math.min(8, Math.max(0.5, view.current.zoom * times));
    const real = zoom / view.current.zoom;
    view.current = {
      zoom,
      x: middleX - (middleX - view.current.x) * real,
      y: middleY - (middleY - view.current.y) * real,
    };
    place();
  };
  const whole = () => {
    view.current = { x: 0, y: 0, zoom: 1 };
    place();
  };
  useEffect(place);

  /// Metres of the plan under a point of the screen.
  const metresAt = (event: PointerEvent): Point => {
    const matrix = ground.current?.getScreenCTM()?.inverse();
    if (!matrix) return [0, 0];
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return [point.x / scale, top - point.y / scale];
  };
  const rounded = (metres: number) => Math.round(metres * 20) / 20;

  const pick = (index: number, isMore: boolean) => {
    const next = new Set(isMore ? picked : []);
    if (picked.has(index) && (isMore || picked.size === 1)) next.delete(index);
    else next.add(index);
    onPick(next);
  };

  const down = (event: PointerEvent) => {
    const target = (event.target as Element).closest('[data-module]');
    const index = target ? Number(target.getAttribute('data-module')) : -1;
    pull.current = {
      kind: index >= 0 && picked.has(index) ? 'modules' : 'pan',
      x: event.clientX, y: event.clientY, moved: false, index,
    };
    svg.current?.setPointerCapture(event.pointerId);
  };
  const unitsOf = (pixels: number) => pixels / (svg.current?.getScreenCTM()?.a ?? 1);
  const drag = (event: PointerEvent) => {
    const now = pull.current;
    if (!now) return;
    const dx = event.clientX - now.x;
    const dy = event.clientY - now.y;
    if (!now.moved && Math.hypot(dx, dy) < 5) return;
    now.moved = true;
    if (now.kind === 'pan') {
      view.current.x += unitsOf(dx);
      view.current.y += unitsOf(dy);
      now.x = event.clientX;
      now.y = event.clientY;
      place();
    } else {
      const zoom = view.current.zoom;
      carried.current?.setAttribute('transform', `translate(${unitsOf(dx) / zoom} ${unitsOf(dy) / zoom})`);
    }
  };
  const up = (event: PointerEvent) => {
    const now = pull.current;
    pull.current = null;
    if (!now) return;
    carried.current?.removeAttribute('transform');
    if (now.moved) {
      if (now.kind !== 'modules') return;
      const zoom = view.current.zoom * scale;
      onMove([rounded(unitsOf(event.clientX - now.x) / zoom), rounded(-unitsOf(event.clientY - now.y) / zoom)]);
      return;
    }
    if (isLaying) {
      const [x, y] = metresAt(event);
      onLay([rounded(x - 0.5), rounded(y - 0.5)]);
    } else if (now.index >= 0) {
      setActive(now.index);
      pick(now.index, event.shiftKey || event.ctrlKey || event.pointerType === 'touch');
    }
  };

  const keys = (event: KeyboardEvent) => {
    const ways: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const way = ways[event.key];
    if (way) {
      event.preventDefault();
      if (event.shiftKey && picked.size > 0) return onMove([way[0] * 0.1, way[1] * 0.1]);
      const next = neighbour(drawing.modules, active, way);
      setActive(next);
    } else if (event.key === ' ' || event.key === 'Enter') {
      event.preventDefault();
      if (drawing.modules[active]) pick(active, true);
    } else if (event.key === 'Delete' && picked.size > 0) {
      event.preventDefault();
      onTake();
    } else if (event.key === '+') zoomBy(1.25);
    else if (event.key === '-') zoomBy(0.8);
    else if (event.key === '0') whole();
    else if (event.key === 'Escape') onPick(new Set());
  };

  const ramp = useMemo(() => {
    const all = values.map((one) => one.value);
    const low = Math.min(...all);
    const high = Math.max(...all);
    return (value: number) => (high > low ? Math.round(((value - low) / (high - low)) * (rampSteps - 1)) : 0);
  }, [values]);

  const grid = drawing.squares;
  const width = (right - left + 2 * edge) * scale;
  const height = (top - bottom + 2 * edge) * scale;
  const modules = (isCarried: boolean) =>
    drawing.modules.map((module, index) =>
      picked.has(index) === isCarried ? (
        <ModuleShape
          key={index}
          module={module}
          index={index}
          top={top}
          recipe={drawing.recipes[module.recipe]?.name ?? ''}
          isPicked={isCarried}
          isActive={hasFocus && index === active}
        />
      ) : null,
    );
  return (
    <div class="drawing">
      <svg
        ref={svg}
        viewBox={`${(left - edge) * scale} ${-edge * scale} ${width} ${height}`}
        class={isLaying ? 'is-laying' : ''}
        role="listbox"
        aria-multiselectable="true"
        aria-label={words.roof.modules}
        aria-describedby="drawing-help"
        aria-activedescendant={drawing.modules.length > 0 ? `module-${active}` : undefined}
        // On SVG elements the attribute is written as it is.
        {...{ tabindex: 0 }}
        onFocus={() => setHasFocus(true)}
        onBlur={() => setHasFocus(false)}
        onKeyDown={keys}
        onPointerDown={down}
        onPointerMove={drag}
        onPointerUp={up}
        onWheel={(event) => {
          if (!event.ctrlKey) return;
          event.preventDefault();
          zoomBy(event.deltaY < 0 ? 1.15 : 0.87);
        }}
      >
        <defs>
          <pattern id="stands" width="14" height="14" patternUnits="userSpaceOnUse">
            <path d="M0 14L14 0" class="hatch" />
          </pattern>
        </defs>
        <g ref={ground}>
          <g role="presentation">
            <path class="roof" d={pathOf(drawing.roof.outline, top)} />
            {values.map((square) => {
              const { column, row } = squareAt(square.name);
              const step = ramp(square.value);
              const x = (grid.left_m + column * grid.side_m) * scale;
              const y = (top - grid.bottom_m - (row + 1) * grid.side_m) * scale;
              const side = grid.side_m * scale;
              return (
                <g key={square.name}>
                  <rect class={`ramp ramp-${step}`} x={x} y={y} width={side} height={side} />
                  <text class={`ramp-text on-${step}`} x={x + side - 6} y={y + side - 8}>
                    {square.text}
                  </text>
                </g>
              );
            })}
            {drawing.rooms.map((room) => (
              <path key={room.name} class="room" d={pathOf(room.outline, top)} />
            ))}
            {drawing.roof.hollows.map((hollow) => (
              <path key={hollow.name} class="hollow" d={pathOf(hollow.outline, top)}>
                <title>{`${words.roof.hollow} ${hollow.name}`}</title>
              </path>
            ))}
            {drawing.roof.obstacles.map((obstacle) => (
              <path key={obstacle.name} class="obstacle" d={pathOf(obstacle.outline, top)}>
                <title>{`${words.roof.obstacle} ${obstacle.name}`}</title>
              </path>
            ))}
            {drawing.roof.outlets.map((outlet) => (
              <circle
                key={outlet.name}
                class="outlet"
                cx={outlet.at[0] * scale}
                cy={(top - outlet.at[1]) * scale}
                r={Math.max(8, (outlet.diameter_mm / 2000) * scale)}
              >
                <title>{`${words.roof.outlet} ${outlet.name}`}</title>
              </circle>
            ))}
            {drawing.containers.map((one) =>
              one.is_round ? (
                <circle key={one.name} class="container" cx={one.at[0] * scale} cy={(top - one.at[1]) * scale}
                        r={((one.right_m - one.left_m) / 2) * scale}>
                  <title>{`${words.roof.container} ${one.name}`}</title>
                </circle>
              ) : (
                <rect key={one.name} class="container" x={one.left_m * scale} y={(top - one.top_m) * scale}
                      width={(one.right_m - one.left_m) * scale} height={(one.top_m - one.bottom_m) * scale}>
                  <title>{`${words.roof.container} ${one.name}`}</title>
                </rect>
              ),
            )}
          </g>
          <g role="presentation" class={values.length > 0 ? 'modules over-numbers' : 'modules'}>{modules(false)}</g>
          <g role="presentation" ref={carried} class={values.length > 0 ? 'modules over-numbers' : 'modules'}>
            {modules(true)}
          </g>
          <g role="presentation" class="room-names">
            {drawing.rooms.map((room) => {
              const at = freeCorner(room.outline, drawing);
              return (
                <text key={room.name} class={at.isRight ? 'is-right' : ''} x={at.x * scale} y={(top - at.y) * scale}>
                  {room.name}
                </text>
              );
            })}
          </g>
        </g>
        <g role="presentation" class="arrow"
           transform={`translate(${(right + edge / 2) * scale} ${-edge * scale * 0.45}) rotate(${-drawing.roof.north_deg})`}>
          <path d="M0 -26L11 20L0 11L-11 20Z" />
          <title>{words.roof.north}</title>
        </g>
        <g role="presentation" class="rule-of-scale"
           transform={`translate(${left * scale} ${(top - bottom + edge * 0.55) * scale})`}>
          <path d={`M0 -8V0H${scale}V-8`} />
          <text x={scale + 12} y={2}>
            1 m
          </text>
        </g>
      </svg>
      <div class="row zooms">
        <button type="button" onClick={() => zoomBy(1.25)}>{words.roof.closer}</button>
        <button type="button" onClick={() => zoomBy(0.8)}>{words.roof.wider}</button>
        <button type="button" onClick={whole}>{words.roof.whole}</button>
        {props.beside}
      </div>
      <p id="drawing-help" class="quiet small">
        {words.roof.help}
      </p>
    </div>
  );
}

/// A corner of a room where its name lies on nothing else, if there is one.
function freeCorner(outline: Point[], drawing: Drawing): { x: number; y: number; isRight: boolean } {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  const [left, right, bottom, top] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [wide, high] = [1.6, 0.35]; // about what a name takes
  const things = [
    ...drawing.modules.map((one) => [one.left_m, one.bottom_m, one.right_m, one.top_m]),
    ...[...drawing.roof.obstacles, ...drawing.roof.hollows].map((one) => [
      Math.min(...one.outline.map(([x]) => x)), Math.min(...one.outline.map(([, y]) => y)),
      Math.max(...one.outline.map(([x]) => x)), Math.max(...one.outline.map(([, y]) => y)),
    ]),
    ...drawing.roof.outlets.map((one) => [one.at[0] - 0.1, one.at[1] - 0.1, one.at[0] + 0.1, one.at[1] + 0.1]),
  ] as [number, number, number, number][];
  const places = [
    { x: left + 0.12, y: top - 0.28, isRight: false },
    { x: left + 0.12, y: bottom + 0.14, isRight: false },
    { x: right - 0.12, y: top - 0.28, isRight: true },
    { x: right - 0.12, y: bottom + 0.14, isRight: true },
  ];
  const is_free = (place: { x: number; y: number; isRight: boolean }) => {
    const from = place.isRight ? place.x - wide : place.x;
    return !things.some(([l, b, r, t]) => from < r && from + wide > l && place.y < t && place.y + high > b);
  };
  return places.find(is_free) ?? { x: left + 0.12, y: top - 0.28, isRight: false };
}

/// The module next to one in a direction: the nearest that lies that way.
function neighbour(modules: Module[], from: number, [dx, dy]: Point): number {
  const here = modules[from];
  if (!here) return 0;
  const middle = (one: Module): Point => [(one.left_m + one.right_m) / 2, (one.bottom_m + one.top_m) / 2];
  const [x, y] = middle(here);
  let best = from;
  let least = Infinity;
  modules.forEach((one, index) => {
    const [ox, oy] = middle(one);
    const along = (ox - x) * dx + (oy - y) * dy;
    const beside = Math.abs((ox - x) * dy) + Math.abs((oy - y) * dx);
    if (index === from || along < 0.2) return;
    const far = along + 2 * beside;
    if (far < least) {
      least = far;
      best = index;
    }
  });
  return best;
}
