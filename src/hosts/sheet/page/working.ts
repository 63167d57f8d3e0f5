import type { Pace } from '../../../calc/guard-stop.ts';

/** Shorter calculations than this are not worth a word. */
const SHOW_AFTER_MS = 300;

/**
 * Shows in the bar that a calculation takes its time, how far it is, and a button that stops it; after a stop, that some
 * values are older than what they rest on, and a button that goes on.
 */
export function showWork(pace: Pace, bar: HTMLElement): void {
  const box = document.createElement('div');
  box.className = 'nw-working';
  box.hidden = true;
  const words = document.createElement('span');
  words.setAttribute('role', 'status');
  const meter = document.createElement('progress');
  meter.setAttribute('aria-label', 'Formulas worked out');
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'nw-command';
  box.append(words, meter, button);
  bar.append(box);

  let timer: ReturnType<typeof setTimeout> | undefined;
  let shown = false;
  const stop = () => pace.stop();
  const resume = () => pace.resume();
  const say = (text: string) => {
    if (words.textContent !== text) words.textContent = text;
  };

  function draw(): void {
    const { running, owing, done, total } = pace.progress();
    if (running && shown) {
      box.hidden = false;
      meter.hidden = false;
      meter.max = Math.max(1, total);
      meter.value = done;
      say('Calculating …');
      button.textContent = 'Stop';
      button.onclick = stop;
    } else if (!running && owing) {
      box.hidden = false;
      meter.hidden = true;
      say('Calculation stopped: some values are older than what they rest on.');
      button.textContent = 'Calculate';
      button.onclick = resume;
    } else if (!running) {
      box.hidden = true;
      say('');
    }
  }

  pace.onProgress(({ running }) => {
    if (running && timer === undefined) {
      timer = setTimeout(() => {
        shown = true;
        draw();
      }, SHOW_AFTER_MS);
    } else if (!running) {
      clearTimeout(timer);
      timer = undefined;
      shown = false;
    }
    draw();
  });
}
