// Hours above the limit by room and cover, as bars with their numbers, and the same as a table.
import type { Document } from './door';
import { Details } from './fields';
import { words } from './words';

const covers = ['bare', 'planted', 'white', 'net', 'board'] as const;

function hoursOf(room: Document, cover: (typeof covers)[number]): number {
  const under = cover === 'bare' || cover === 'planted' ? room[cover] : room[cover].same_squares;
  return under.hours_above_limit.value;
}

export function CoverBars({ rooms }: { rooms: Document[] }) {
  const most = Math.max(1, ...rooms.flatMap((room) => covers.map((cover) => hoursOf(room, cover))));
  const row = 22;
  const group = covers.length * row + 34;
  const left = 96;
  const wide = 520;
  const format = new Intl.NumberFormat();
  return (
    <figure>
      <figcaption>{words.chart.hours}</figcaption>
      <svg class="chart" viewBox={`0 0 ${wide} ${rooms.length * group}`} role="img" aria-label={words.chart.hours}>
        {rooms.map((room, at) => (
          <g key={room.name} transform={`translate(0 ${at * group})`}>
            <text class="name" x="0" y="18">
              {room.name}
            </text>
            {covers.map((cover, index) => {
              const hours = hoursOf(room, cover);
              const width = (hours / most) * (wide - left - 70);
              const y = 26 + index * row;
              return (
                <g key={cover}>
                  <text x={left - 8} y={y + 13} class="tick">
                    {words.covers[cover]}
                  </text>
                  <rect class={cover === 'planted' ? 'bar is-planted' : 'bar'} x={left} y={y} width={width} height={row - 5}>
                    <title>{`${room.name}, ${words.covers[cover]}: ${format.format(hours)} h`}</title>
                  </rect>
                  <text x={left + width + 6} y={y + 13}>{`${format.format(hours)} h`}</text>
                </g>
              );
            })}
          </g>
        ))}
      </svg>
      <Details summary={words.chart.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.chart.room}</th>
              {covers.map((cover) => (
                <th key={cover} scope="col">{`${words.covers[cover]}, h`}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rooms.map((room) => (
              <tr key={room.name}>
                <th scope="row">{room.name}</th>
                {covers.map((cover) => (
                  <td key={cover}>{format.format(hoursOf(room, cover))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Details>
    </figure>
  );
}
