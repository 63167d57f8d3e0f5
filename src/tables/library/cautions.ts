import { findRefrigerant } from '../../engine/refrigerant/by-name.ts';
import { TABLES } from '../../engine/refrigerant/data/index.ts';
import { raise } from '../../faults/issue.ts';
import { type Caution, type CautionStep, cautionNotes, type SafetyClass } from './caution-notes.ts';

export const cautionSteps: readonly CautionStep[] = ['pressure test', 'evacuation', 'recovery', 'charging', 'all'];

const safetyClasses: readonly SafetyClass[] = ['A1', 'A2L', 'A2', 'A3', 'B1', 'B2L', 'B2', 'B3'];

/** Names without case, spaces or punctuation: "r 410a", "R410A" and "R-410A" are one. */
function plain(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]/g, '');
}

const stepNames: ReadonlyMap<string, CautionStep> = new Map([
  ...cautionSteps.map((step) => [plain(step), step] as const),
  ['pressure', 'pressure test'],
  ['pressuretesting', 'pressure test'],
  ['leaktest', 'pressure test'],
  ['evacuate', 'evacuation'],
  ['evacuating', 'evacuation'],
  ['vacuum', 'evacuation'],
  ['recover', 'recovery'],
  ['recovering', 'recovery'],
  ['charge', 'charging'],
  ['every', 'all'],
  ['general', 'all'],
]);

/** Safety class by refrigerant, ANSI/ASHRAE Standard 34 / ISO 817, as it stands in the tables of properties. */
export const refrigerantClasses: ReadonlyMap<string, SafetyClass> = new Map(
  TABLES.flatMap(({ name, safetyClass }) =>
    safetyClasses.filter((one) => one === safetyClass).map((one) => [name, one] as const),
  ),
);

const classNames: ReadonlyMap<string, SafetyClass> = new Map(safetyClasses.map((name) => [plain(name), name]));

interface Subject {
  readonly name: string | undefined;
  readonly safetyClass: SafetyClass;
}

function subjectOf(refrigerant: string): Subject {
  const key = plain(refrigerant);
  const byClass = classNames.get(key);
  if (byClass !== undefined) return { name: undefined, safetyClass: byClass };
  const name = findRefrigerant(refrigerant)?.name;
  const safetyClass = name === undefined ? undefined : refrigerantClasses.get(name);
  if (name === undefined || safetyClass === undefined) {
    return raise({
      kind: 'unknown',
      what: 'refrigerant or safety class',
      value: refrigerant,
      known: [...refrigerantClasses.keys(), ...safetyClasses],
    });
  }
  return { name, safetyClass };
}

function concerns(caution: Caution, subject: Subject): boolean {
  const { scope } = caution;
  if (scope === undefined) return true;
  if (scope.classes?.includes(subject.safetyClass) === true) return true;
  // a class alone does not tell which refrigerant: notes on single refrigerants stay, nobody is kept from a warning
  if (subject.name === undefined) return scope.refrigerants !== undefined || scope.series400 === true;
  return (
    scope.refrigerants?.includes(subject.name) === true || (scope.series400 === true && /^R-4\d\d/.test(subject.name))
  );
}

/** Local codes and licensed practice: these two come before everything else, whatever the step. */
const FIRST = ['CA-40', 'CA-41'];
const severityRank = { danger: 0, warning: 1, notice: 2 } as const;

function rank(caution: Caution, step: CautionStep): readonly [number, number, number] {
  const first = FIRST.indexOf(caution.id);
  if (first >= 0) return [0, first, 0];
  return [1, caution.step === step ? 0 : 1, severityRank[caution.severity]];
}

/**
 * The caution notes for a step: local codes and licensed practice first, then the step's own notes from danger to
 * notice, then those that hold for every step.
 *
 * @param step "pressure test", "evacuation", "recovery", "charging", or "all" for every note there is
 * @param refrigerant a refrigerant such as "R-32" or a safety class such as "A2L": notes on others are left out
 * @throws `unknown` for a step, refrigerant or class that is not in the list
 */
export function cautionsFor(step: string, refrigerant?: string): readonly Caution[] {
  const known = stepNames.get(plain(step));
  if (known === undefined) return raise({ kind: 'unknown', what: 'step', value: step, known: cautionSteps });
  const subject = refrigerant === undefined || refrigerant.trim() === '' ? undefined : subjectOf(refrigerant);
  return cautionNotes
    .filter((caution) => known === 'all' || caution.step === known || caution.step === 'all')
    .filter((caution) => subject === undefined || concerns(caution, subject))
    .map((caution, index) => ({ caution, index, order: rank(caution, known) }))
    .sort((a, b) => a.order[0] - b.order[0] || a.order[1] - b.order[1] || a.order[2] - b.order[2] || a.index - b.index)
    .map(({ caution }) => caution);
}
