/** Colours of the drawing by their names in the style sheet; here as a picture that leaves the pane has them, for paper. */
export const PAPER: Readonly<Record<string, string>> = {
  '--nw-rig-ground': '#ffffff',
  '--nw-rig-ink': '#1d2126',
  '--nw-rig-quiet': '#4d545c',
  '--nw-rig-body': '#d9dce0',
  '--nw-rig-loss': '#a4441f',
};

export const GROUND = 'var(--nw-rig-ground)';
export const INK = 'var(--nw-rig-ink)';
export const QUIET = 'var(--nw-rig-quiet)';
export const BODY = 'var(--nw-rig-body)';
export const LOSS = 'var(--nw-rig-loss)';
