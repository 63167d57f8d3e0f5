import type { CellFunction } from '../define.ts';
import type { Registry } from '../registry.ts';
import { aboutFunction } from './about.ts';
import { cautions } from './cautions.ts';
import { check } from './check.ts';
import { whyFunction } from './why.ts';

export function words(registry: () => Registry): readonly CellFunction[] {
  return [cautions, whyFunction(registry), check, aboutFunction(registry)];
}
