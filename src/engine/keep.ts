/**
 * Answers by key: what was made for the key before, else what `make` gives now. The longest unused goes first; what is
 * thrown is not kept.
 *
 * @param most answers that are kept
 */
export function keeping<T>(most: number): (key: string, make: () => T) => T {
  const kept = new Map<string, T>();
  return (key, make) => {
    if (kept.has(key)) {
      const known = kept.get(key) as T;
      // last used stays longest
      kept.delete(key);
      kept.set(key, known);
      return known;
    }
    const value = make();
    kept.set(key, value);
    const [oldest] = kept.keys();
    if (kept.size > most && oldest !== undefined) kept.delete(oldest);
    return value;
  };
}

/** As `keeping`, for answers that hang on a record and go with it. */
export function keepingOf<K extends object, T>(most: number): (record: K, key: string, make: () => T) => T {
  const kept = new WeakMap<K, (key: string, make: () => T) => T>();
  return (record, key, make) => {
    let ofRecord = kept.get(record);
    if (ofRecord === undefined) {
      ofRecord = keeping<T>(most);
      kept.set(record, ofRecord);
    }
    return ofRecord(key, make);
  };
}
