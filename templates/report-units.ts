/** Formulas over spilled tables: their columns are in Pa or in micron, as Report units of the conditions says. */

/** Pressure of a spilled cell in micron, by the unit that the header of its column carries. */
export function micronOf(cell: string, header: string): string {
  return `IF(ISNUMBER(SEARCH("micron",${header})),${cell},NARROWS.CONVERT(${cell},"Pa","micron"))`;
}

/** Pressure of a spilled cell in Pa, by the unit that the header of its column carries. */
export function pascalOf(cell: string, header: string): string {
  return `IF(ISNUMBER(SEARCH("micron",${header})),NARROWS.CONVERT(${cell},"micron","Pa"),${cell})`;
}
