/**
 * Hours into money. Hours and plain money, no SI here.
 */

export interface Role {
  /** money an hour of one person */
  readonly rate: number;
  /** people of the role in attended hours, and people paid while a unit waits */
  readonly attends: number;
  readonly waits: number;
  /** paid hours of a day */
  readonly dayHours: number;
  /** money a paid day of one person */
  readonly travel: number;
}

/** What an attended and a waited hour cost. */
export interface HourCost {
  readonly attended: number;
  readonly waiting: number;
}

/** An hour of the role's people: people x (rate + travel / paid hours of a day). */
export function roleCost({ rate, attends, waits, dayHours, travel }: Role): HourCost {
  const hour = rate + travel / dayHours;
  return { attended: attends * hour, waiting: waits * hour };
}

export function hourCost(roles: readonly Role[]): HourCost {
  let attended = 0;
  let waiting = 0;
  for (const role of roles) {
    const cost = roleCost(role);
    attended += cost.attended;
    waiting += cost.waiting;
  }
  return { attended, waiting };
}

export function costOf(hours: HourCost, cost: HourCost): number {
  return hours.attended * cost.attended + hours.waiting * cost.waiting;
}

/** Working days of `technicians` side by side for the attended hours: by the shortest day of the roles that attend. */
export function workingDays(attendedHours: number, technicians: number, roles: readonly Role[]): number {
  const day = Math.min(...roles.filter(({ attends }) => attends > 0).map(({ dayHours }) => dayHours));
  return attendedHours / (technicians * day);
}
