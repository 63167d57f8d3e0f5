import type * as Core from '@univerjs/core';
import type * as Engine from '@univerjs/engine-formula';

/**
 * The two packages that the calculation needs, handed in by the host: Node loads their CommonJS builds (`univer-node.ts`),
 * a page passes its own imports. Nothing else in this folder imports them except as types, so that a page never holds
 * two copies of them.
 */
export interface UniverModules {
  readonly core: typeof Core;
  readonly engine: typeof Engine;
}

/** What is needed of a dependency injector; the one of a running Univer fits. */
export type Injector = Core.Injector;
