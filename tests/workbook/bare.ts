import { type Parts, textPart, writeParts } from '../../src/workbook/package.ts';

/** Workbooks written by hand, part by part, as other programs write them (ISO/IEC 29500-1). */

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

export interface BareSheet {
  readonly name: string;
  /** rows, as they stand inside sheetData */
  readonly rows: string;
  /** what stands before and behind the rows */
  readonly before?: string;
  readonly after?: string;
  readonly state?: 'hidden';
}

export interface BareWorkbook {
  readonly sheets: readonly BareSheet[];
  readonly names?: string;
  readonly styles?: string;
  readonly strings?: readonly string[];
  readonly date1904?: boolean;
  /** further parts by name: kind of relation from the workbook (or undefined for none), type of content, text */
  readonly parts?: Readonly<
    Record<string, { readonly relation?: string; readonly type?: string; readonly text: string }>
  >;
  readonly mainType?: string;
}

export function bareParts(book: BareWorkbook): Parts {
  const parts: Parts = new Map();
  const relations: string[] = [];
  const types: string[] = [];
  const put = (name: string, type: string | undefined, relation: string | undefined, text: string): number => {
    parts.set(name, textPart(HEAD + text));
    if (type !== undefined) types.push(`<Override PartName="/${name}" ContentType="${type}"/>`);
    if (relation !== undefined) {
      const kind = relation.includes('://') ? relation : `${OFFICE}/${relation}`;
      relations.push(`<Relationship Id="rId${relations.length + 1}" Type="${kind}" Target="/${name}"/>`);
    }
    return relations.length;
  };
  const sheetType = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
  const sheets = book.sheets.map((sheet, index) => {
    const id = put(
      `xl/worksheets/sheet${index + 1}.xml`,
      `${sheetType}.worksheet+xml`,
      'worksheet',
      `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${sheet.before ?? ''}<sheetData>${sheet.rows}</sheetData>${sheet.after ?? ''}</worksheet>`,
    );
    const state = sheet.state === undefined ? '' : ` state="${sheet.state}"`;
    return `<sheet name="${sheet.name}" sheetId="${index + 1}"${state} r:id="rId${id}"/>`;
  });
  if (book.styles !== undefined) put('xl/styles.xml', `${sheetType}.styles+xml`, 'styles', book.styles);
  if (book.strings !== undefined) {
    const items = book.strings.map((text) => `<si><t>${text}</t></si>`).join('');
    put(
      'xl/sharedStrings.xml',
      `${sheetType}.sharedStrings+xml`,
      'sharedStrings',
      `<sst xmlns="${MAIN}">${items}</sst>`,
    );
  }
  for (const [name, part] of Object.entries(book.parts ?? {})) put(name, part.type, part.relation, part.text);
  const dates = book.date1904 === true ? '<workbookPr date1904="1"/>' : '';
  const names = book.names === undefined ? '' : `<definedNames>${book.names}</definedNames>`;
  put(
    'xl/workbook.xml',
    book.mainType ?? `${sheetType}.sheet.main+xml`,
    undefined,
    `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}">${dates}<sheets>${sheets.join('')}</sheets>${names}</workbook>`,
  );
  parts.set(
    'xl/_rels/workbook.xml.rels',
    textPart(`${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${relations.join('')}</Relationships>`),
  );
  parts.set(
    '_rels/.rels',
    textPart(
      `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
  );
  parts.set(
    '[Content_Types].xml',
    textPart(
      `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${types.join('')}</Types>`,
    ),
  );
  return parts;
}

export function bareFile(book: BareWorkbook): Uint8Array {
  return writeParts(bareParts(book));
}
