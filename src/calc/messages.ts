/** A cell of a sheet of a workbook; rows and columns count from 0. */
export interface CellPlace {
  readonly unitId: string;
  readonly sheetId: string;
  readonly row: number;
  readonly column: number;
}

export interface CellMessage extends CellPlace {
  readonly code: string;
  /** empty when the error came without words, e.g. from an ordinary spreadsheet function */
  readonly message: string;
}

/**
 * The words that belong to the errors on the sheet. The engine stores an error's code in the cell and drops its words;
 * they are kept here, replaced whenever the cell is calculated again.
 */
export interface Messages {
  set(place: CellPlace, code: string, message: string): void;
  clear(place: CellPlace): void;
  clearUnit(unitId: string): void;
  at(place: CellPlace): CellMessage | undefined;
  all(unitId: string): readonly CellMessage[];
  /** Calls `listener` after each calculation. Returns how to stop. */
  onChange(listener: () => void): () => void;
  changed(): void;
}

const cellKey = (row: number, column: number): string => `${row}:${column}`;

export function createMessages(): Messages {
  const units = new Map<string, Map<string, Map<string, CellMessage>>>();
  const listeners = new Set<() => void>();

  const sheetOf = (unitId: string, sheetId: string): Map<string, CellMessage> => {
    let sheets = units.get(unitId);
    if (!sheets) {
      sheets = new Map();
      units.set(unitId, sheets);
    }
    let cells = sheets.get(sheetId);
    if (!cells) {
      cells = new Map();
      sheets.set(sheetId, cells);
    }
    return cells;
  };

  return {
    set({ unitId, sheetId, row, column }, code, message) {
      sheetOf(unitId, sheetId).set(cellKey(row, column), { unitId, sheetId, row, column, code, message });
    },
    clear({ unitId, sheetId, row, column }) {
      units.get(unitId)?.get(sheetId)?.delete(cellKey(row, column));
    },
    clearUnit(unitId) {
      units.delete(unitId);
    },
    at({ unitId, sheetId, row, column }) {
      return units.get(unitId)?.get(sheetId)?.get(cellKey(row, column));
    },
    all(unitId) {
      const sheets = units.get(unitId);
      return sheets ? [...sheets.values()].flatMap((cells) => [...cells.values()]) : [];
    },
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    changed() {
      for (const listener of listeners) listener();
    },
  };
}
