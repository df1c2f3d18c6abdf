"use client";

import { usePathname } from "next/navigation";
import { lazy, Suspense, useEffect, useState } from "react";
import { draftPrefix } from "./draft-prefix.ts";

const Sending = lazy(() => import("./sending-line.client.tsx"));

/**
 * On every page: sends the finished test sheets of this device. What it takes to do so is fetched only where the device
 * keeps a sheet at all.
 */
export function SheetsWaiting() {
  const pathname = usePathname();
  const [keepsAny, setKeepsAny] = useState(false);
  // Asked again on each page: a sheet may have been begun on the one before.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the path is what asks.
  useEffect(() => setKeepsAny(deviceKeepsSheets()), [pathname]);
  // The page of a test tells of them itself.
  if (!keepsAny || /^\/units\/[^/]+\/test$/.test(pathname)) return null;
  return (
    <Suspense fallback={null}>
      <Sending />
    </Suspense>
  );
}

function deviceKeepsSheets(): boolean {
  try {
    return Object.keys(localStorage).some((key) => key.startsWith(draftPrefix));
  } catch {
    return false;
  }
}
