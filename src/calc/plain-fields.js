/**
 * Build step for the formula engine: fields of its classes are set by name. As shipped, each goes through one shared helper with
 * its name as data, which a browser looks up anew for every field; a calculation makes some ten thousand objects of two dozen
 * fields. Names that are accessors somewhere in the file stay with the helper, which defines them whatever their class inherits.
 *
 * @param {string} source a module as the package ships it
 * @returns {string}
 */
export default function plainFields(source) {
  const accessors = new Set();
  for (const [, name] of source.matchAll(/^\s*(?:static )?[gs]et (\w+)\(/gmu)) accessors.add(name);
  return source.replace(/\b_defineProperty\(this, "(\w+)", /gu, (call, name) =>
    accessors.has(name) ? call : `void (this.${name} = `,
  );
}
