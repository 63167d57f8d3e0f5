/** Formulas over spilled tables: their columns are metric or in inches, cubic feet and micron, as Report units says. */

/** Pressure of a spilled cell in micron, by the unit that the header of its column carries. */
export function micronOf(cell: string, header: string): string {
  return `IF(ISNUMBER(SEARCH("micron",${header})),${cell},NARROWS.CONVERT(${cell},"Pa","micron"))`;
}

/** Pressure of a spilled cell in Pa, by the unit that the header of its column carries. */
export function pascalOf(cell: string, header: string): string {
  return `IF(ISNUMBER(SEARCH("micron",${header})),NARROWS.CONVERT(${cell},"micron","Pa"),${cell})`;
}

/** Litres of a sum over a spilled column, by the unit that the header of the column carries. */
export function litresOf(sum: string, header: string): string {
  return `IF(ISNUMBER(SEARCH("ft3",${header})),NARROWS.CONVERT(${sum},"ft3","L"),${sum})`;
}
