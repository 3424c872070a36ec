/** Keys that mean the same on every sheet. */
import { project, SHEETS } from "./project.svelte";

/** True while somebody types into a field, where single letters are text. */
export function typing(event: Event): boolean {
  const target = event.target;
  return (
    // the field of the search may still be on its way
    project.finding ||
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  );
}

export function keys(event: KeyboardEvent): void {
  const held = event.ctrlKey || event.metaKey;
  if (event.altKey && !held) {
    const sheet = SHEETS[Number(event.key) - 1];
    if (sheet) {
      event.preventDefault();
      location.hash = sheet;
    }
    return;
  }
  if (event.key === "Escape" && project.panel && !typing(event)) {
    void project.show("");
    return;
  }
  if (event.key === "?" && !typing(event)) {
    event.preventDefault();
    void project.show(project.panel === "help" ? "" : "help");
    return;
  }
  if (held && event.key.toLowerCase() === "k" && project.state) {
    event.preventDefault();
    project.finding = !project.finding;
    return;
  }
  if (held && event.key.toLowerCase() === "z") {
    // the field in hand has its own undo until its value is taken
    if (event.target instanceof HTMLTextAreaElement) return;
    event.preventDefault();
    void (event.shiftKey ? project.redo() : project.undo());
  }
}
