"use client";

/** Prints the page as it stands, by the print styles. */
export function PrintButton() {
  return (
    <button type="button" className="button-link" onClick={() => window.print()}>
      Print
    </button>
  );
}
