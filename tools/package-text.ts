/** Where the add-in will be served, from the variable ADDRESS or `--env address=...`; undefined unless it is https. */
export function packageAddress(variable: string | undefined, words: readonly string[]): string | undefined {
  const given = words.map((word) => /^(?:--)?address=(.*)$/.exec(word)?.[1]).find((found) => found !== undefined);
  const address = (given ?? variable ?? '').replace(/\/+$/, '');
  return URL.canParse(address) && address.startsWith('https://') ? address : undefined;
}

/** The short text that lies beside the files. */
export function readMe(address: string): string {
  return `Narrows for Excel

1. Upload everything in this folder to ${address}/
   Any host that serves static files over https will do; no program runs there.
   Let it send Access-Control-Allow-Origin: * for functions.json.
2. Open ${address}/docs/index.html in a browser. If the contents show, the files are in place.
3. Give manifest.xml to Excel: for one person by side-loading, for an organisation by its administrator.
   How, step by step: ${address}/docs/install-excel.html (docs/install-excel.html in this folder).

The addresses inside are for ${address} only. For another host make the folder again with that address.
Results are estimates. Local codes, the equipment maker's instructions and licensed practice come first.
`;
}
