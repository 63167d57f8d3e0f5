export interface BarActions {
  open(file: File): void;
  save(): void;
  /** a fresh workbook: the address it comes from and its name */
  fresh(from: string, name: string): void;
  csv(): void;
  print(): void;
  /** gives the focus to the grid */
  toGrid(): void;
}

export interface Bar {
  /** Saves as the button does, which is off while something else goes on. */
  save(): void;
  /** Says what happened, for everyone: read out by screen readers. */
  say(text: string): void;
  /** Takes back what was said, unless something else has been said since. */
  unsay(text: string): void;
  /** Asks in the bar, without a window over the page; false is the safe answer. */
  ask(question: string, yes: string, no: string): Promise<boolean>;
  /** Switches the buttons off while a workbook is read or written. */
  busy(on: boolean): void;
  /** In a narrow window, which has room for one of the two: shows the pane, or the grid. */
  showPane(shown: boolean): void;
}

/** Workbooks to begin with: where the server has them, and what they are called. */
const STARTS = [
  ['/template.xlsx', 'Example project'],
  ['/templates/narrows-empty.xlsx', 'Empty'],
  ['/templates/example-estimator.xlsx', 'Small: estimator'],
  ['/templates/example-engineer.xlsx', 'Small: engineer'],
  ['/templates/example-trainee.xlsx', 'Small: trainee'],
] as const;

/** Commands before the list of templates, which belongs to the last of them. */
const FIRST_COMMANDS = 3;

/** Class of a status line that has a row of its own, and how many lines it has room for beside the buttons. */
const LONG = 'nw-long';
const LINES_BESIDE = 2;

/** The bar over the grid: open, save, new, and the status line. */
export function createBar(element: HTMLElement, actions: BarActions): Bar {
  const brand = document.createElement('h1');
  brand.className = 'nw-brand';
  brand.textContent = 'Narrows';
  const picker = document.createElement('input');
  picker.type = 'file';
  picker.accept = '.xlsx';
  picker.hidden = true;
  picker.setAttribute('aria-label', 'Workbook to open');
  picker.addEventListener('change', () => {
    const file = picker.files?.[0];
    picker.value = '';
    if (file) actions.open(file);
  });
  const starts = document.createElement('select');
  starts.className = 'nw-command';
  starts.setAttribute('aria-label', 'Template');
  for (const [value, label] of STARTS) starts.add(new Option(label, value));
  const saving = command('Save as .xlsx', actions.save);
  const commands = [
    command('Open …', () => picker.click()),
    saving,
    command('New from template', () => {
      const { value, label } = starts.selectedOptions[0] ?? { value: '/template.xlsx', label: '' };
      actions.fresh(value, label);
    }),
    command('Sheet as .csv', actions.csv),
    command('Print', actions.print),
  ];
  for (const button of commands) {
    // Before its own work: the keys of a person with a mouse are for the cells, whatever the work asks.
    button.addEventListener('click', (event) => isOfAMouse(event) && actions.toGrid(), true);
  }
  const toggle = command('Pane', () => showPane(!document.body.classList.contains('nw-with-pane')));
  const showPane = (shown: boolean) => {
    document.body.classList.toggle('nw-with-pane', shown);
    toggle.setAttribute('aria-expanded', String(shown));
    toggle.textContent = shown ? 'Sheet' : 'Pane';
  };
  toggle.classList.add('nw-toggle');
  toggle.setAttribute('aria-controls', 'nw-pane');
  toggle.setAttribute('aria-expanded', 'false');
  const keys = document.createElement('p');
  keys.className = 'nw-keys';
  keys.textContent = 'F6: next part';
  keys.title = 'F6 goes from part to part of the page: bar, grid, charts, pane. Shift+F6 goes back.';
  const status = document.createElement('p');
  status.className = 'nw-status';
  status.setAttribute('role', 'status');
  const asking = document.createElement('div');
  asking.className = 'nw-asking';
  asking.setAttribute('role', 'group');
  asking.hidden = true;
  element.replaceChildren(
    brand,
    ...commands.slice(0, FIRST_COMMANDS),
    starts,
    ...commands.slice(FIRST_COMMANDS),
    picker,
    toggle,
    keys,
    status,
    asking,
  );
  // A button that is switched off loses the focus: a person who came by keyboard finds it there again.
  let held: HTMLButtonElement | undefined;
  const busy = (on: boolean) => {
    if (on) held = commands.find((button) => button === document.activeElement) ?? held;
    for (const button of commands) button.disabled = on;
    if (on) return;
    if (document.activeElement === document.body) held?.focus();
    held = undefined;
  };
  const makeRoom = () => {
    status.classList.remove(LONG);
    const lines = status.clientHeight / Number.parseFloat(getComputedStyle(status).lineHeight);
    status.classList.toggle(LONG, Math.round(lines) > LINES_BESIDE);
  };
  const say = (text: string) => {
    status.textContent = text;
    makeRoom();
  };
  addEventListener('resize', makeRoom);
  return {
    save: () => saving.click(),
    say,
    unsay(text) {
      if (status.textContent === text) say('');
    },
    ask(question, yes, no) {
      const before = document.activeElement;
      const words = document.createElement('span');
      words.textContent = question;
      asking.setAttribute('aria-label', question);
      asking.hidden = false;
      busy(true);
      return new Promise((resolve) => {
        const answer = (value: boolean) => {
          asking.hidden = true;
          busy(false);
          if (before instanceof HTMLElement) before.focus();
          resolve(value);
        };
        const keep = command(no, () => answer(false));
        asking.replaceChildren(
          words,
          command(yes, () => answer(true)),
          keep,
        );
        asking.onkeydown = (event) => {
          if (event.key === 'Escape') answer(false);
        };
        keep.focus();
      });
    },
    busy,
    showPane,
  };
}

/** A finger would get a keyboard on the screen with the grid's focus, and a key on the button stays there. */
const isOfAMouse = (event: MouseEvent): boolean =>
  event.detail > 0 && !(event instanceof PointerEvent && event.pointerType === 'touch');

function command(label: string, act: () => void): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'nw-command';
  button.textContent = label;
  button.addEventListener('click', act);
  return button;
}
