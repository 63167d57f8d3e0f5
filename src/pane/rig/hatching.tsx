import { LOSS } from './colours.ts';

/** Steps of the share of the loss: from each on the hatching is denser. The first has none. */
const STEPS = [
  { from: 0, opacity: 0.06, pitch: undefined, crossed: false },
  { from: 0.01, opacity: 0.14, pitch: 10, crossed: false },
  { from: 0.1, opacity: 0.24, pitch: 7, crossed: false },
  { from: 0.25, opacity: 0.36, pitch: 5, crossed: false },
  { from: 0.5, opacity: 0.5, pitch: 5, crossed: true },
] as const;

export const HATCHING_WORDS = 'Denser hatching, a larger share of the loss: from 1, 10, 25 and 50 %.';

/** Number of the hatching for a share of the loss. */
export function hatchingOf(share: number): number {
  return STEPS.filter(({ from }) => share >= from).length - 1;
}

export function hatchingFill(prefix: string, share: number): string {
  return `url(#${prefix}-hatch-${Math.max(0, hatchingOf(share))})`;
}

export function HatchingDefinitions({ prefix }: { readonly prefix: string }) {
  return (
    <defs>
      {STEPS.map(({ from, opacity, pitch, crossed }, i) => {
        const size = pitch ?? 8;
        return (
          <pattern
            key={from}
            id={`${prefix}-hatch-${i}`}
            width={size}
            height={size}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect width={size} height={size} fill={LOSS} fillOpacity={opacity} />
            {pitch !== undefined && <path d={`M0 0V${size}`} stroke={LOSS} strokeWidth={2} />}
            {crossed && <path d={`M0 0H${size}`} stroke={LOSS} strokeWidth={2} />}
          </pattern>
        );
      })}
    </defs>
  );
}
