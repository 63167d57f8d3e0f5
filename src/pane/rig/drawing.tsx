import { useId, useMemo } from 'react';
import type { ReportUnits } from '../../tables/spill.ts';
import { BODY, GROUND, INK, LOSS, QUIET } from './colours.ts';
import type { DrawnPart, DrawnRig } from './drawn-rig.ts';
import { boreText, lengthText, shareText } from './figures.ts';
import { AXIS, type Geometry, geometryOf, LABEL_LEFT, type Piece, roundLength, WIDTH } from './geometry.ts';
import { HatchingDefinitions, hatchingFill } from './hatching.tsx';
import { lines, shortened, widthOf } from './letters.ts';
import { PartShape } from './part-shape.tsx';

/** Of a label, px. */
const ROOM = WIDTH - 2 - LABEL_LEFT;
const SIZE = 12;
const SMALL = 11;
const NAME_LINES = 2;
const LINE = 13;
const BAR = 92;
const LEGEND = 72;
const INCH = 0.0254;

interface Props {
  readonly rig: DrawnRig;
  readonly units: ReportUnits;
  /** at the system, as people read it */
  readonly pressure: string;
  readonly onElement: (element: SVGSVGElement | null) => void;
}

/** The cut through a rig, pump at the top. A picture to screen readers: the table beside it says the same. */
export function RigDrawing({ rig, units, pressure, onElement }: Props) {
  const prefix = `nw${useId().replace(/\W/g, '')}`;
  const geometry = useMemo(() => geometryOf(rig), [rig]);
  const height = geometry.height + LEGEND;
  return (
    <svg
      ref={onElement}
      className="nw-rig-drawing"
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${WIDTH} ${height}`}
      width={WIDTH}
      height={height}
      role="img"
      aria-label={summary(rig, pressure)}
      fontFamily="system-ui, sans-serif"
      fontSize={12}
    >
      <HatchingDefinitions prefix={prefix} />
      <rect width={WIDTH} height={height} fill={GROUND} />
      <Pump rig={rig} bottom={geometry.first} />
      {geometry.galleries.map(({ left, right, top, bottom }) => (
        <rect key={top} x={left} y={top} width={right - left} height={bottom - top} fill={LOSS} fillOpacity={0.06} />
      ))}
      {geometry.pieces.map((piece) => (
        <Passage key={piece.part.number} piece={piece} prefix={prefix} />
      ))}
      <g stroke={INK} strokeWidth={2} strokeLinecap="square">
        {geometry.walls.map(({ x1, y1, x2, y2 }) => (
          <path key={`${x1} ${y1} ${x2} ${y2}`} d={`M${x1} ${y1}L${x2} ${y2}`} />
        ))}
      </g>
      <g stroke={QUIET} strokeWidth={1} strokeDasharray="2 2">
        {geometry.pieces.flatMap(({ axes, half, bottom }) =>
          axes.map((axis) => <path key={`${axis} ${bottom}`} d={`M${axis - half} ${bottom}H${axis + half}`} />),
        )}
      </g>
      {geometry.pieces.map((piece) => (
        <PartShape key={piece.part.number} piece={piece} />
      ))}
      {geometry.hasWays && geometry.pieces.map((piece) => <Tag key={piece.part.number} piece={piece} />)}
      {geometry.labels.map(({ part, top }) => (
        <PartLabel key={part.number} part={part} top={top} units={units} prefix={prefix} />
      ))}
      <System top={geometry.last} pressure={pressure} />
      <Scale geometry={geometry} units={units} top={geometry.height} />
    </svg>
  );
}

/** The drawing in one sentence. */
export function summary(rig: DrawnRig, pressure: string): string {
  const worst = rig.parts.reduce<DrawnPart | undefined>(
    (most, part) => (most === undefined || part.share > most.share ? part : most),
    undefined,
  );
  const told =
    worst === undefined ? 'a bare pump' : `largest share of the loss: ${worst.name}, ${shareText(worst.share)}`;
  return `Rig ${rig.name} at ${pressure}: ${told}.`;
}

function Passage({ piece, prefix }: { readonly piece: Piece; readonly prefix: string }) {
  const { axes, half, top, bottom, part } = piece;
  return (
    <g fill={hatchingFill(prefix, part.share)}>
      {axes.map((axis) => (
        <rect key={axis} x={axis - half} y={top} width={2 * half} height={bottom - top} />
      ))}
    </g>
  );
}

/** The number of a part in its passage, by which its label is found where parts stand side by side. */
function Tag({ piece }: { readonly piece: Piece }) {
  const x = piece.axes[0] ?? AXIS;
  const y = piece.tag;
  return (
    <g>
      <circle cx={x} cy={y} r={8} fill={GROUND} stroke={INK} />
      <text x={x} y={y + 4} textAnchor="middle" fontSize={11} fill={INK}>
        {piece.part.number}
      </text>
    </g>
  );
}

function PartLabel(props: {
  readonly part: DrawnPart;
  readonly top: number;
  readonly units: ReportUnits;
  readonly prefix: string;
}) {
  const { part, top, units, prefix } = props;
  const name = lines(`${part.number}  ${part.name}`, ROOM, SIZE, NAME_LINES);
  const length = lengthText(part, units);
  const size = `${boreText(part, units)}${length === '' ? '' : `, ${length}`}`;
  // the shape tells the kind as well
  const whole = `${part.kind}, ${size}`;
  const told = widthOf(whole, SMALL, 'plain') <= ROOM ? whole : shortened(size, ROOM, SMALL, 'plain');
  const first = top + (name.length > 1 ? 12 : 18);
  const detail = first + name.length * LINE;
  return (
    <g className="nw-rig-label">
      <text x={LABEL_LEFT} y={first} fontWeight={600} fill={INK}>
        {name.map((line, i) => (
          <tspan key={line} x={LABEL_LEFT} dy={i === 0 ? 0 : LINE}>
            {line}
          </tspan>
        ))}
      </text>
      <text x={LABEL_LEFT} y={detail} fontSize={11} fill={QUIET}>
        {told}
      </text>
      <rect x={LABEL_LEFT} y={detail + 5} width={BAR} height={10} fill="none" stroke={BODY} />
      <rect
        x={LABEL_LEFT}
        y={detail + 5}
        width={Math.max(0.5, BAR * part.share)}
        height={10}
        fill={hatchingFill(prefix, part.share)}
        stroke={LOSS}
      />
      <text className="nw-rig-share" x={WIDTH - 4} y={detail + 15} textAnchor="end" fontWeight={600} fill={INK}>
        {shareText(part.share)}
      </text>
    </g>
  );
}

/** A pump is a circle with a wedge, a recovery machine a box with one. */
function Pump({ rig, bottom }: { readonly rig: DrawnRig; readonly bottom: number }) {
  const middle = bottom - 22;
  const name = lines(rig.pump, ROOM, SIZE, NAME_LINES);
  const pressure = `${rig.pumpInlet} at its inlet`;
  const whole = `${rig.isMachine ? 'machine' : 'pump'}, ${pressure}`;
  const inlet = widthOf(whole, SMALL, 'plain') <= ROOM ? whole : shortened(pressure, ROOM, SMALL, 'plain');
  return (
    <g stroke={INK} strokeWidth={2} fill={BODY}>
      {rig.isMachine ? (
        <rect x={AXIS - 22} y={middle - 20} width={44} height={42} rx={4} />
      ) : (
        <circle cx={AXIS} cy={middle} r={21} />
      )}
      <path d={`M${AXIS - 14} ${middle + 12}L${AXIS} ${middle - 15}L${AXIS + 14} ${middle + 12}z`} fill={GROUND} />
      <g stroke="none">
        <text x={LABEL_LEFT} y={middle - 2 - (name.length - 1) * LINE} fontWeight={600} fill={INK}>
          {name.map((line, i) => (
            <tspan key={line} x={LABEL_LEFT} dy={i === 0 ? 0 : LINE}>
              {line}
            </tspan>
          ))}
        </text>
        <text x={LABEL_LEFT} y={middle + 13} fontSize={11} fill={QUIET}>
          {inlet}
        </text>
      </g>
    </g>
  );
}

function System({ top, pressure }: { readonly top: number; readonly pressure: string }) {
  return (
    <g>
      <rect x={AXIS - 44} y={top} width={88} height={36} rx={9} fill={BODY} stroke={INK} strokeWidth={2} />
      <text x={AXIS} y={top + 22} textAnchor="middle" fontWeight={600} fill={INK}>
        system
      </text>
      <text x={LABEL_LEFT} y={top + 22} fontSize={11} fill={QUIET}>
        {shortened(pressure, ROOM, SMALL, 'plain')}
      </text>
    </g>
  );
}

/** The scale of the bores as a bar, and what the heights mean in words. */
function Scale({
  geometry,
  units,
  top,
}: {
  readonly geometry: Geometry;
  readonly units: ReportUnits;
  readonly top: number;
}) {
  const unit = units === 'inch' ? INCH : 1e-3;
  const value = roundLength(geometry.scale * unit, 100);
  const width = value * unit * geometry.scale;
  const text = `${Number(value.toPrecision(3))} ${units === 'inch' ? 'in' : 'mm'} across`;
  const along = [
    'Along: ten times the length adds the same;',
    'all below 0.1 m are drawn alike.',
    ...(geometry.hasWays ? ['Ways in parallel end together.'] : []),
  ];
  return (
    <g fontSize={11} fill={QUIET}>
      <path d={`M8 ${top - 4}v8h${width}v-8`} fill="none" stroke={INK} strokeWidth={1.5} />
      <text x={16 + width} y={top + 4}>
        {text}
      </text>
      {along.map((line, i) => (
        <text key={line} x={8} y={top + 24 + i * 14}>
          {line}
        </text>
      ))}
    </g>
  );
}
