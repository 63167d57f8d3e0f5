/** What the functions of the group have in common. */
export const LABOUR_NOTES: readonly string[] = [
  'Attended minutes of one unit: Access x (Set-up + Hold readings x Reading time + Breaks x Break time + Charging + Pack-up + looks at the pump). Waiting: pull and hold, less the looks.',
  'Pull is Total of EVAC.PROJECT for the row: until no water is left, the pressure is at the target, and the far end of a line is, too.',
  'A look takes Check time at the end of every whole Check interval of pump time. With Breaks the minutes of the pull are shared equally between Breaks + 1 pulls, each with its own looks; what a plan of breaks does to the pull itself is for EVAC.BREAKS.',
  'Travel between areas is attended once for a row whose Area differs from that of the last row above that has one, Access or not. The first way to the site is not counted.',
  'Each of these inputs is the row’s own, else that of the conditions; the conditions page lists the defaults, which are common practice without a source.',
  'Cost: for each role (Attends x attended hours + Waits x waiting hours) x (Rate + Travel / Day length).',
];
