"use client";

/** Prints the page as it is asked for. Hidden where no script runs. */
export function PrintButton() {
  return (
    <button type="button" className="button-link needs-script" onClick={() => window.print()}>
      Print
    </button>
  );
}
