import type { Role } from '../../engine/estimate/money.ts';
import type { RatesTable, RoleRow } from '../../tables/rates.ts';

const SECONDS_PER_HOUR = 3600;

export function roleOf({ rate, attends, waits, dayLength, travel }: RoleRow): Role {
  return { rate, attends, waits, dayHours: dayLength / SECONDS_PER_HOUR, travel };
}

export function rolesOf({ roles }: RatesTable): readonly Role[] {
  return roles.map(roleOf);
}
