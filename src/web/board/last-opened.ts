/** Which drill was opened last, so that the way back leads to its row. Forgotten when the page is left. */
let opened: string | null = null;

export function rememberOpened(id: string): void {
  opened = id;
}

export function lastOpened(): string | null {
  return opened;
}
