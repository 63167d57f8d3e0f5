import { functions } from '../../functions/index.ts';
import { associateAll } from './associate.ts';
import { installStandIn } from './stand-in.ts';

// Excel's runtime is there before this script runs; a page outside Excel has none.
if (typeof CustomFunctions === 'undefined') installStandIn();

associateAll(functions, CustomFunctions as never);
