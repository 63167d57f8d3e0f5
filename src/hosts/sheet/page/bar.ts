export interface BarActions {
  open(file: File): void;
  save(): void;
  fresh(): void;
}

export interface Bar {
  /** Says what happened, for everyone: read out by screen readers. */
  say(text: string): void;
  /** Switches the buttons off while a workbook is read or written. */
  busy(on: boolean): void;
}

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
  const commands = [
    command('Open …', () => picker.click()),
    command('Save as .xlsx', actions.save),
    command('New from template', actions.fresh),
  ];
  const toggle = command('Pane', () => {
    const shown = document.body.classList.toggle('nw-with-pane');
    toggle.setAttribute('aria-expanded', String(shown));
    toggle.textContent = shown ? 'Sheet' : 'Pane';
  });
  toggle.classList.add('nw-toggle');
  toggle.setAttribute('aria-controls', 'nw-pane');
  toggle.setAttribute('aria-expanded', 'false');
  const status = document.createElement('p');
  status.className = 'nw-status';
  status.setAttribute('role', 'status');
  element.replaceChildren(brand, ...commands, picker, toggle, status);
  return {
    say(text) {
      status.textContent = text;
      status.title = text;
    },
    busy(on) {
      for (const button of commands) button.disabled = on;
    },
  };
}

function command(label: string, act: () => void): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'nw-command';
  button.textContent = label;
  button.addEventListener('click', act);
  return button;
}
