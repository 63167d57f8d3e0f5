import type { WorkbookModel } from '../src/workbook/model.ts';
import { rangeOf } from './layout.ts';
import { withReadableNote } from './readable.ts';
import { SCENARIO } from './scenario.ts';
import { breaksSheet, planRange } from './sheets/breaks.ts';
import { cautionsSheet } from './sheets/cautions.ts';
import { compareSheet } from './sheets/compare.ts';
import { conditionsSheet, conditionsSpot } from './sheets/conditions.ts';
import { crewSheet, crewsRange } from './sheets/crew.ts';
import { curvesSheet } from './sheets/curves.ts';
import { gearSheet } from './sheets/gear.ts';
import { holdLogSpot, holdTestSheet } from './sheets/hold-test.ts';
import { labourSheet, ratesRange } from './sheets/labour.ts';
import { listsSheet } from './sheets/lists.ts';
import { lineRunsSpot, longLineSheet, onePortRange, twoPortsRange } from './sheets/long-line.ts';
import { notesSheet } from './sheets/notes.ts';
import { oneRigSheet } from './sheets/one-rig.ts';
import { partsSheet, partsSpot, rigNamesRange } from './sheets/parts.ts';
import { recoverySheet } from './sheets/recovery.ts';
import { resultsSheet } from './sheets/results.ts';
import { factorsRange, riskSheet } from './sheets/risk.ts';
import { runsSheet, runsSpot } from './sheets/runs.ts';
import { startSheet } from './sheets/start.ts';
import { unitsSheet, unitsSpot } from './sheets/units.ts';

/**
 * The template workbook as plain data: the file is built from it, and the task pane adds its sheets through the host.
 * Stored results are not in it: `build.ts` has them worked out. Imports nothing that only Node has.
 */
export function templateModel(): WorkbookModel {
  return {
    title: 'Evacuation times for a whole project',
    description: `Example: ${SCENARIO} (invented)`,
    sheets: [
      startSheet,
      conditionsSheet,
      partsSheet,
      runsSheet,
      unitsSheet,
      resultsSheet(),
      labourSheet(),
      riskSheet(),
      crewSheet(),
      compareSheet(),
      oneRigSheet(),
      gearSheet(),
      curvesSheet(),
      longLineSheet(),
      breaksSheet(),
      holdTestSheet(),
      recoverySheet,
      cautionsSheet(),
      notesSheet(),
      listsSheet,
    ].map(withReadableNote),
    names: [
      { name: 'Conditions', range: rangeOf(conditionsSpot), comment: 'What holds for the whole workbook' },
      { name: 'Parts', range: rangeOf(partsSpot), comment: 'The rigs, one row a part' },
      { name: 'Runs', range: rangeOf(runsSpot), comment: 'Pipe runs and components' },
      { name: 'Units', range: rangeOf(unitsSpot), comment: 'Groups of equal units' },
      { name: 'Rates', range: ratesRange, comment: 'Roles and what an hour of them costs' },
      { name: 'Factors', range: factorsRange, comment: 'What may be off, and how far' },
      { name: 'Crews', range: crewsRange, comment: 'Technicians and sets of gear' },
      { name: 'RigNames', range: rigNamesRange, comment: 'Names of the rigs, for lists' },
      { name: 'HoldLog', range: rangeOf(holdLogSpot), comment: 'Readings of the hold test' },
      { name: 'LineRuns', range: rangeOf(lineRunsSpot), comment: 'The long line, one row a pipe or component' },
      { name: 'LinePort', range: onePortRange, comment: 'The long line through one port' },
      { name: 'LinePorts', range: twoPortsRange, comment: 'The long line through two ports' },
      { name: 'BreakPlan', range: planRange, comment: 'Pulls and nitrogen breaks' },
    ],
  };
}
