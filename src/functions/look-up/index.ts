import type { CellFunction } from '../define.ts';
import { refrigerantFunction } from '../refrigerant/properties.ts';
import { convertFunction } from './convert.ts';
import { gasFunction } from './gas.ts';
import { tubeBoreFunction } from './tube-bore.ts';

export const lookUp: readonly CellFunction[] = [convertFunction, tubeBoreFunction, gasFunction, refrigerantFunction];
