"use client";

import { useEffect } from "react";

/** Has the browser ask before the page is left or loaded anew while something typed is not kept. */
export function useUnkept(isUnkept: boolean): void {
  useEffect(() => {
    if (!isUnkept) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [isUnkept]);
}
