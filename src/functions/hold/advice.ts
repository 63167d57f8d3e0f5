import { FEWEST_READINGS, type HoldVerdict, TIGHT_RISE } from '../../engine/hold/read.ts';
import { SLOWEST } from '../../engine/hold/shapes.ts';
import { fromSI } from '../../units/quantity.ts';

export const NO_VERDICT = "can't tell yet";

/**
 * Hold limits of practice, Pa: 500 micron of a guide specification and of split manuals, 1000 micron of a rule of thumb.
 * Practice, not physics; the maker's own limit goes first.
 */
const USUAL_LIMIT = { micron: 500, highest: 1000 } as const;

const round = (value: number, digits = 2): string => String(Number(value.toPrecision(digits)));
const micron = (pascal: number): number => fromSI(pascal, 'micron', 'pressure');
const both = (pascal: number): string => `${round(pascal, 3)} Pa (${round(micron(pascal), 3)} micron)`;
const minutes = (seconds: number): string => round(seconds / 60);

/** Whole minutes, upwards: what a person can wait for. */
const waiting = (seconds: number): string => {
  const whole = Math.max(Math.ceil(seconds / 60 - 1e-6), 1);
  return `${whole} ${whole === 1 ? 'minute' : 'minutes'}`;
};

/** How sure, in words. */
export function sureness({ cause, probability }: HoldVerdict): string {
  if (cause === undefined) return 'not sure';
  return probability >= 0.99 ? 'sure' : 'fairly sure';
}

function practiceWords(last: number): string {
  const reading = micron(last);
  if (reading <= USUAL_LIMIT.micron)
    return 'Within the 500 micron that practice asks for; the limit of the maker goes first.';
  const beyond = reading <= USUAL_LIMIT.highest ? 'above the 500 micron' : 'well above the 500 to 1000 micron';
  return `It stands at ${both(last)}, ${beyond} that practice asks for: pull deeper before charging. The limit of the maker goes first.`;
}

function leaning({ leaning: cause, weights, probability }: HoldVerdict): string {
  const others = weights.filter(([other]) => other !== cause).map(([other]) => other);
  const [next] = others;
  return `Most like ${cause} so far (${round(100 * probability)} %)${next === undefined ? '' : `, then ${next}`}.`;
}

function settleWords(verdict: HoldVerdict, todo: string): string {
  const { moreTime } = verdict;
  return moreTime === undefined
    ? `Waiting alone will not settle it soon: ${todo}`
    : `About ${waiting(moreTime)} more of readings, as close as so far, would settle it.`;
}

function doubtWords(verdict: HoldVerdict): string {
  switch (verdict.doubt) {
    case 'few':
      return `Needs ${FEWEST_READINGS} readings or more over five minutes or more: go on for ${waiting(verdict.moreTime ?? 0)} at least.`;
    case 'short':
      return `The log is too short: go on for ${waiting(verdict.moreTime ?? 0)} at least.`;
    case 'noise':
      return `No rise shows, but the scatter of the readings could hide one that matters. ${settleWords(verdict, 'use a steadier gauge.')}`;
    case 'resolution':
      return `The gauge's resolution hides the rise: its step of ${both(verdict.resolution)} could be ${both((verdict.resolution / verdict.span) * 3600)} an hour, which matters. Go on for ${waiting(verdict.moreTime ?? 0)} at least, or use a gauge with finer steps.`;
    case 'falling':
      return 'The pressure falls, which none of the causes does: see that the valve to the pump is shut and that the system does not cool; log the temperature with each reading.';
    case 'speeding up':
      return `The rise speeds up, which none of the causes does: see whether the system warms; log the temperature with each reading.`;
    default:
      return `${leaning(verdict)} ${settleWords(verdict, 'break the vacuum with dry nitrogen, pull down again and compare the rises: a leak comes back the same, moisture and outgassing come back less.')}`;
  }
}

/** What the verdict rests on and what to do. */
export function advice(verdict: HoldVerdict): string {
  const { cause, last, level, constant, badTime, rise } = verdict;
  const odd = badTime === undefined ? '' : ` The reading at ${minutes(badTime)} min was left out as a bad one.`;
  const words = (): string => {
    switch (cause) {
      case undefined:
        return doubtWords(verdict);
      case 'tight':
        return `No rise beyond ${both(rise * 60)} a minute. ${practiceWords(last)}`;
      case 'leak': {
        const small = rise < TIGHT_RISE ? ' It is less than the usual hold limits would notice.' : '';
        return `Rises straight on.${small} Check hoses, gauge connection and valve cores first, then find the leak under dry nitrogen, mend it, and evacuate again. Moisture that takes longer than ${minutes(Math.max(SLOWEST, verdict.span))} min to level off would look the same.`;
      }
      case 'moisture':
        return `Levels off${level === undefined ? '' : ` towards ${both(level)}`}${constant === undefined ? '' : `, with a time constant of ${minutes(constant)} min`}. Break with dry nitrogen, warm the system, change the pump oil, and evacuate again until it holds. Practice takes a steady 1000 to 2000 micron as moisture.`;
      case 'outgassing':
        return 'Slows down but does not level off: oil, seals and walls give off gas. Keep pulling, warm the system if allowed, and hold again; moisture together with a small leak can look alike, so a second hold that rises the same means a leak.';
      default:
        return 'Bends, then rises straight on: moisture and a leak together; the rate is that of the leak. Mend the leak first, then dry with nitrogen breaks.';
    }
  };
  return `${words()}${odd}`;
}
