import type { ImportStateError } from "../../db/import-state.ts";

/** Why an import could not be committed, discarded or undone, and what to do, in one or two sentences. */
export function importErrorWords(error: ImportStateError): string {
  switch (error.code) {
    case "unknown-import":
      return "This import is not known.";
    case "counts-changed":
      return "Other data came in meanwhile, and this import now counts differently. Look at its figures again, then commit it.";
    case "no-longer-holds":
      return `Other data came in meanwhile, and rows of this import do not hold beside it (${error.row}). Discard it and read its files again.`;
    case "built-on":
      return `A later import, "${error.later}", corrects what this one told. Undo that one first, or a test would count twice.`;
    case "wrong-state":
      return stateWords[error.state];
  }
}

const stateWords: Record<Extract<ImportStateError, { code: "wrong-state" }>["state"], string> = {
  staging: "This import is still being read.",
  staged: "This import has not been committed yet.",
  committed: "This import has been committed already.",
  undone: "This import has been undone already.",
  discarded: "This import was discarded; read its files again.",
};
