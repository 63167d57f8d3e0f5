import type { Caution } from '../tables/library/caution-notes.ts';

/** The reason as a sentence; in a table it is the words of a cell. */
export function reasonOf({ why }: Pick<Caution, 'why'>): string {
  return `${why.slice(0, 1).toUpperCase()}${why.slice(1)}.`;
}

/** Where a note is from and how that is known, said once where there is no source. */
export function originOf({ source, basis }: Pick<Caution, 'source' | 'basis'>): string {
  return source === basis ? source : `${source} (${basis})`;
}
