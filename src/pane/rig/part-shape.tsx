import { BODY, INK } from './colours.ts';
import { AXIS, type Piece } from './geometry.ts';

const SHELL = 46;

/**
 * What a part looks like around its passages, by its kind. Hoses have a braid, ports a nut, cores a pin with a spring,
 * depressors a pin with a foot, manifolds a block with two wheels, valves two wedges, filters a sieve; a tube is plain.
 */
export function PartShape({ piece }: { readonly piece: Piece }) {
  const { part, top, bottom } = piece;
  const middle = 0.5 * (top + bottom);
  const outer = Math.max(...piece.axes.map((axis) => Math.abs(axis - AXIS))) + piece.half;
  const edges = { left: Math.min(...piece.axes) - piece.half, right: Math.max(...piece.axes) + piece.half };
  switch (part.kind) {
    case 'hose':
      return (
        <g fill="none" stroke={INK} strokeWidth={1}>
          {piece.axes.flatMap((axis) =>
            [-1, 1].map((side) => (
              <path
                key={`${axis} ${side}`}
                d={braid(axis + side * (piece.half + 1.5), side * 4, top + 2, bottom - 2)}
              />
            )),
          )}
        </g>
      );
    case 'port':
      return (
        <g fill={BODY} stroke={INK}>
          {piece.axes.flatMap((axis) =>
            [-1, 1].map((side) => {
              const at = axis + side * piece.half;
              const out = side * Math.min(12, SHELL - piece.half);
              const d = `M${at} ${middle - 15}l${0.5 * out} -6l${0.5 * out} 0v42h${-0.5 * out}l${-0.5 * out} -6z`;
              return <path key={`${axis} ${side}`} d={d} />;
            }),
          )}
        </g>
      );
    case 'core':
    case 'depressor':
      return (
        <g stroke={INK}>
          {piece.axes.map((axis) => (
            <g key={axis}>
              {[-1, 1].map((side) => (
                <rect
                  key={side}
                  x={side < 0 ? axis - piece.half - 9 : axis + piece.half}
                  y={top + 8}
                  width={9}
                  height={bottom - top - 16}
                  fill={BODY}
                />
              ))}
              <Pin x={axis} top={top + 10} bottom={bottom - 10} isCore={part.kind === 'core'} />
            </g>
          ))}
        </g>
      );
    case 'manifold':
      return (
        <g stroke={INK} fill={BODY}>
          <path
            fillRule="evenodd"
            d={`M${AXIS - SHELL} ${top + 6}h${2 * SHELL}v${bottom - top - 12}h${-2 * SHELL}z M${edges.left} ${top + 6}v${
              bottom - top - 12
            }h${edges.right - edges.left}v${-(bottom - top - 12)}z`}
          />
          {outer < SHELL - 14 &&
            [-1, 1].map((side) => (
              <g key={side}>
                <circle cx={AXIS + side * (SHELL - 11)} cy={middle} r={8} />
                <path d={`M${AXIS + side * (SHELL - 11) - 8} ${middle}h16m-8 -8v16`} fill="none" />
              </g>
            ))}
        </g>
      );
    case 'valve':
      return (
        <g stroke={INK} fill={BODY}>
          {[-1, 1].map((side) => {
            const at = side < 0 ? edges.left : edges.right;
            const out = side * Math.max(10, Math.min(18, SHELL - outer));
            return <path key={side} d={`M${at} ${middle}l${out} -16v32z`} />;
          })}
        </g>
      );
    case 'filter':
      return (
        <g stroke={INK} fill="none">
          <rect x={AXIS - SHELL} y={top + 8} width={2 * SHELL} height={bottom - top - 16} rx={10} />
          <path d={`M${edges.left} ${middle}H${edges.right}`} strokeWidth={3} strokeDasharray="2 3" />
        </g>
      );
    case 'branch':
      return <path d={`M${edges.right} ${middle - 6}l14 -10m0 10l-14 10`} fill="none" stroke={INK} strokeWidth={1.5} />;
    default:
      return null;
  }
}

/** The pin of a core with its spring, or of a depressor with its foot. */
function Pin({
  x,
  top,
  bottom,
  isCore,
}: {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly isCore: boolean;
}) {
  const length = bottom - top;
  if (!isCore) return <path d={`M${x} ${top}V${bottom}M${x - 6} ${bottom}H${x + 6}`} strokeWidth={2} fill="none" />;
  const turns = Array.from({ length: 5 }, (_, i) => `L${x + (i % 2 === 0 ? 5 : -5)} ${top + ((i + 1) * length) / 6}`);
  return (
    <g fill="none">
      <path d={`M${x} ${top}V${bottom}`} strokeWidth={2} />
      <path d={`M${x} ${top}${turns.join('')}L${x} ${bottom}`} strokeWidth={1} />
      <circle cx={x} cy={top} r={3} fill={INK} />
    </g>
  );
}

function braid(x: number, width: number, top: number, bottom: number): string {
  const count = Math.max(2, Math.round((bottom - top) / 5));
  const step = (bottom - top) / count;
  const turns = Array.from({ length: count }, (_, i) => `L${x + (i % 2 === 0 ? width : 0)} ${top + (i + 1) * step}`);
  return `M${x} ${top}${turns.join('')}`;
}
