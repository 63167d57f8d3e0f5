import { functions } from '../../functions/index.ts';
import { associateAll } from './associate.ts';
import { installStandIn } from './stand-in.ts';

function register(): void {
  // A page outside Excel has none of Excel's runtime.
  if (typeof CustomFunctions === 'undefined') installStandIn();
  associateAll(functions, CustomFunctions as never);
}

// Excel's runtime is there before this script runs; should it ever come later, Office says when.
if (typeof CustomFunctions === 'undefined' && typeof Office !== 'undefined') void Office.onReady(register);
else register();
