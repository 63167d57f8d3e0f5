/** What the loopback server answers at all: who may ask, how, and for which path. */

export interface Asked {
  readonly method: string;
  readonly url: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
}

export type Verdict =
  | { readonly pass: true; readonly path: string }
  | { readonly pass: false; readonly status: number; readonly why: string };

const LOOPBACK_NAMES = ['localhost', '127.0.0.1'];
/** Longer request lines than this have no use here. */
const URL_LIMIT = 2048;

/**
 * Judges one request. Host must be a loopback name with our port, which turns away pages that reach us through a name of
 * theirs (DNS rebinding); Origin, where sent, must be ours; only reading is possible; the path must stay inside.
 *
 * @param port the port that the server listens on
 * @returns the decoded path, which starts with / and has no empty, `.` or `..` step, or the refusal
 */
export function judge(asked: Asked, port: number): Verdict {
  const names = LOOPBACK_NAMES.map((name) => `${name}:${port}`);
  if (asked.host === undefined || !names.includes(asked.host.toLowerCase())) return refuse(403, 'wrong host');
  if (asked.origin !== undefined && !names.some((name) => asked.origin?.toLowerCase() === `http://${name}`))
    return refuse(403, 'wrong origin');
  if (asked.method !== 'GET' && asked.method !== 'HEAD') return refuse(405, 'only GET and HEAD');
  if (asked.url.length > URL_LIMIT) return refuse(414, 'address too long');
  const path = decoded(asked.url.split(/[?#]/, 1)[0] ?? '');
  if (path === undefined || !path.startsWith('/') || /[\\\0]/.test(path)) return refuse(400, 'bad path');
  const steps = path.slice(1).split('/');
  if (steps.some((step, i) => step === '.' || step === '..' || (step === '' && i < steps.length - 1)))
    return refuse(400, 'bad path');
  return { pass: true, path };
}

function refuse(status: number, why: string): Verdict {
  return { pass: false, status, why };
}

function decoded(text: string): string | undefined {
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}

/**
 * Headers of every answer. Styles may be inline because the grid sets them on its elements; scripts may not. Pictures from
 * `data:` and `blob:` are drawn by the grid; nothing may be asked of anyone but this server.
 */
export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=()',
  'Cache-Control': 'no-cache',
};
