import { raise } from '../../faults/issue.ts';
import { type Caution, type CautionStep, cautionNotes, type SafetyClass } from './caution-notes.ts';

export const cautionSteps: readonly CautionStep[] = ['pressure test', 'evacuation', 'recovery', 'charging', 'all'];

const safetyClasses: readonly SafetyClass[] = ['A1', 'A2L', 'A2', 'A3', 'B1', 'B2L', 'B2', 'B3'];

/**
 * Safety class by refrigerant: ANSI/ASHRAE Standard 34 / ISO 817, as seen in open summaries; R-407C, R-744 and R-717
 * from memory.
 */
export const refrigerantClasses: ReadonlyMap<string, SafetyClass> = new Map([
  ['R-22', 'A1'],
  ['R-32', 'A2L'],
  ['R-134a', 'A1'],
  ['R-290', 'A3'],
  ['R-404A', 'A1'],
  ['R-407C', 'A1'],
  ['R-410A', 'A1'],
  ['R-448A', 'A1'],
  ['R-454B', 'A2L'],
  ['R-513A', 'A1'],
  ['R-600a', 'A3'],
  ['R-717', 'B2L'],
  ['R-744', 'A1'],
  ['R-1234yf', 'A2L'],
]);

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

const refrigerantNames: ReadonlyMap<string, string> = new Map([
  ...[...refrigerantClasses.keys()].flatMap((name) => [
    [plain(name), name] as const,
    [plain(name).slice(1), name] as const,
  ]),
  ['ammonia', 'R-717'],
  ['propane', 'R-290'],
  ['isobutane', 'R-600a'],
  ['carbondioxide', 'R-744'],
  ['co2', 'R-744'],
]);

const classNames: ReadonlyMap<string, SafetyClass> = new Map(safetyClasses.map((name) => [plain(name), name]));

interface Subject {
  readonly name: string | undefined;
  readonly safetyClass: SafetyClass;
}

function subjectOf(refrigerant: string): Subject {
  const key = plain(refrigerant);
  const byClass = classNames.get(key);
  if (byClass !== undefined) return { name: undefined, safetyClass: byClass };
  const name = refrigerantNames.get(key);
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
