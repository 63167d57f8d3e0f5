import { libraryPart } from '../src/tables/library/parts.ts';
import { prices } from './labour.ts';

/** A rig by the names of its library parts, from the pump to the system. */
export interface TemplateRig {
  readonly name: string;
  readonly parts: readonly (string | { readonly part: string; readonly count: number })[];
}

export const templateRigs: readonly TemplateRig[] = [
  {
    name: 'A core in, small hose',
    parts: ['pump 4 cfm', 'port 1/4 in flare', 'hose 1/4 in x 5 ft', 'depressor 1/4 in', 'core fitted'],
  },
  {
    name: 'B core out, small hose',
    parts: ['pump 4 cfm', 'port 1/4 in flare', 'hose 1/4 in x 5 ft', 'core-removal valve 1/4 in', 'core removed'],
  },
  {
    name: 'C two-way manifold, core in',
    parts: [
      'pump 4 cfm',
      'port 1/4 in flare',
      'hose 1/4 in x 5 ft',
      'manifold two-way 1/4 in',
      'hose 1/4 in x 5 ft',
      'depressor 1/4 in',
      'core fitted',
    ],
  },
  {
    name: 'D four-way manifold, core in',
    parts: [
      'pump 6 cfm',
      'port 3/8 in flare',
      'hose 3/8 in x 5 ft',
      'manifold four-way 3/8 in',
      'port 1/4 in flare',
      'hose 1/4 in x 5 ft',
      'depressor 1/4 in',
      'core fitted',
    ],
  },
  {
    name: 'E three-eighths hose, core out',
    parts: ['pump 5 cfm', 'port 3/8 in flare', 'hose 3/8 in x 5 ft', 'core-removal valve 1/4 in', 'core removed'],
  },
  {
    name: 'F half-inch hose, core out',
    parts: [
      'pump 5 cfm',
      'port 3/8 in flare',
      'hose 1/2 in x 6 ft',
      'end 1/4 in on 1/2 in hose',
      'core-removal valve 1/4 in',
      'core removed',
    ],
  },
  {
    name: 'G half-inch hose, core in',
    parts: [
      'pump 5 cfm',
      'port 3/8 in flare',
      'hose 1/2 in x 6 ft',
      'end 1/4 in on 1/2 in hose',
      'depressor 1/4 in',
      'core fitted',
    ],
  },
  {
    name: 'H two half-inch hoses',
    parts: [
      'pump 8 cfm',
      'port 1/2 in flare',
      { part: 'hose 1/2 in x 6 ft', count: 2 },
      { part: 'end 1/4 in on 1/2 in hose', count: 2 },
      { part: 'core-removal valve 1/4 in', count: 2 },
      { part: 'core removed', count: 2 },
    ],
  },
  {
    name: 'I big pump, small hose, core in',
    parts: ['pump 10 cfm', 'port 3/8 in flare', 'hose 1/4 in x 5 ft', 'depressor 1/4 in', 'core fitted'],
  },
  {
    name: 'J wide side port',
    parts: [
      'pump 6 cfm',
      'port 3/8 in flare',
      'hose 1/2 in x 6 ft',
      'core-removal valve 3/8 in side port',
      'core removed',
    ],
  },
  {
    name: 'K big pump, half-inch hose',
    parts: [
      'pump 10 cfm',
      'port 1/2 in flare',
      'hose 1/2 in x 3 ft',
      'end 1/4 in on 1/2 in hose',
      'core-removal valve 1/4 in',
      'core removed',
    ],
  },
  {
    name: 'L chiller, three-quarter hose',
    parts: ['pump 12 cfm', 'port 1/2 in flare', 'hose 3/4 in x 6 ft', 'ball valve 3/4 in'],
  },
];

/** Header of the Parts sheet; `Basis` is for people, the functions pass over it. */
export const partsHeader = [
  'Rig',
  'Part',
  'Kind',
  'Bore (mm)',
  'Length (m)',
  'Count',
  'Coefficient',
  'Loss',
  'Speed (cfm)',
  'Ultimate (micron)',
  'Swap group',
  'Cost',
  'Basis',
  'Note',
] as const;

const CUBIC_FOOT_A_MINUTE = 0.3048 ** 3 / 60;
/** Pa, conventional micron of mercury */
const MICRON = 0.133322387415;

/** Figures as a person would type them: five digits are more than any of the dimensions is good for. */
function digits(value: number | undefined): number | null {
  return value === undefined ? null : Number(value.toPrecision(5));
}

/** Rows of the Parts sheet under `partsHeader`. */
export function partsRows(rigs: readonly TemplateRig[] = templateRigs): (string | number | null)[][] {
  return rigs.flatMap(({ name, parts }) =>
    parts.map((entry) => {
      const { part: called, count } = typeof entry === 'string' ? { part: entry, count: undefined } : entry;
      const part = libraryPart(called);
      const isPump = part.kind === 'pump';
      return [
        name,
        part.name,
        part.kind,
        digits(part.bore === undefined ? undefined : part.bore * 1000),
        digits(part.length),
        count ?? null,
        part.coefficient ?? null,
        part.loss ?? null,
        isPump ? digits((part.speed ?? 0) / CUBIC_FOOT_A_MINUTE) : null,
        isPump ? digits((part.ultimate ?? 0) / MICRON) : null,
        part.swapGroup ?? null,
        prices[part.name] ?? null,
        part.basis,
        part.note,
      ];
    }),
  );
}
