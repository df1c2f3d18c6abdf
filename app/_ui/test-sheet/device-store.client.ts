"use client";

import { useSyncExternalStore } from "react";
import { type DeviceDraft, deviceDraftSchema } from "./device-draft.ts";
import { draftPrefix as prefix } from "./draft-prefix.ts";

/**
 * The test sheets that this device keeps, in the browser's local storage: a sheet is a few kilobytes, and what is set there
 * is kept before the next line runs, so that a tablet may be shut in the middle of a word. IndexedDB would hold more, but
 * only after a while. Where the browser keeps nothing (private, or full), sheets live as long as the page, and it says so.
 */

/** Sheets that were sent stay to be looked at, the last so many. */
const sentKept = 5;

export interface DeviceSheets {
  /** The newest last. */
  readonly drafts: readonly DeviceDraft[];
  /** false: the browser keeps nothing beyond this page. */
  readonly isKept: boolean;
}

let sheets: DeviceSheets | null = null;
/** Sheets that the browser did not keep as they are now: this page alone has them. */
const unkept = new Set<string>();
const listeners = new Set<() => void>();

function read(): DeviceSheets {
  const drafts = (sheets?.drafts ?? []).filter(({ id }) => unkept.has(id));
  const isKept = drafts.length === 0;
  try {
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      const draft = key?.startsWith(prefix) ? parsed(localStorage.getItem(key)) : null;
      if (draft !== null && !unkept.has(draft.id)) drafts.push(draft);
    }
  } catch {
    return { drafts, isKept: false };
  }
  return { drafts: drafts.toSorted((a, b) => (a.id < b.id ? -1 : 1)), isKept };
}

/** null: it is no sheet of this version, and is left where it is. */
function parsed(text: string | null): DeviceDraft | null {
  try {
    return deviceDraftSchema.safeParse(JSON.parse(text ?? "null")).data ?? null;
  } catch {
    return null;
  }
}

const current = (): DeviceSheets => {
  sheets ??= read();
  return sheets;
};

function tell(next: DeviceSheets): void {
  sheets = next;
  for (const listener of listeners) listener();
}

/** Another page of this browser changed a sheet. */
function onStorage(event: StorageEvent): void {
  if (event.key === null || event.key.startsWith(prefix)) tell(read());
}

function subscribe(listener: () => void): () => void {
  if (listeners.size === 0) window.addEventListener("storage", onStorage);
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) window.removeEventListener("storage", onStorage);
  };
}

/** The sheets of this device; null while the page is not yet the browser's own. */
export const useDeviceSheets = (): DeviceSheets | null => useSyncExternalStore(subscribe, current, () => null);

/**
 * The sheet as the device keeps it now, which another page of this browser may have changed a moment ago, before this one was
 * told; null: it is kept no more.
 */
export function deviceDraft(id: string): DeviceDraft | null {
  const shown = current().drafts.find((draft) => draft.id === id) ?? null;
  if (unkept.has(id)) return shown;
  try {
    return parsed(localStorage.getItem(prefix + id));
  } catch {
    return shown;
  }
}

/** Sheets that are finished and not sent. */
export const waitingDrafts = (): readonly DeviceDraft[] =>
  current().drafts.filter(({ sending, sent }) => sending !== "no" && sent === null);

/** Keeps a sheet, in place of what was kept of it. */
export function putDraft(draft: DeviceDraft): void {
  const { drafts } = current();
  const place = drafts.findIndex(({ id }) => id === draft.id);
  const next = place < 0 ? [...drafts, draft] : drafts.with(place, draft);
  const isKept = write(draft);
  if (isKept) unkept.delete(draft.id);
  else unkept.add(draft.id);
  tell({ drafts: next, isKept });
  for (const { id } of next.filter(({ sent }) => sent !== null).slice(0, -sentKept)) removeDraft(id);
}

function write(draft: DeviceDraft): boolean {
  try {
    localStorage.setItem(prefix + draft.id, JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

/** Changes a sheet as the device keeps it now; one that is there no more is not brought back. */
export function changeDraft(id: string, change: (draft: DeviceDraft) => DeviceDraft): void {
  const draft = deviceDraft(id);
  if (draft === null) tell(read());
  else putDraft(change(draft));
}

export function removeDraft(id: string): void {
  try {
    localStorage.removeItem(prefix + id);
  } catch {
    // It was never kept.
  }
  unkept.delete(id);
  const { drafts, isKept } = current();
  tell({ drafts: drafts.filter((draft) => draft.id !== id), isKept });
}

/**
 * The time, then six bytes by chance: by their ids sheets stand in the order in which they were begun. Not by `randomUUID`,
 * which browsers keep from pages that come over plain HTTP.
 */
export function newDraftId(now: number): string {
  const chance = [...crypto.getRandomValues(new Uint8Array(6))].map((byte) => byte.toString(16).padStart(2, "0"));
  return now.toString(16).padStart(12, "0") + chance.join("");
}
