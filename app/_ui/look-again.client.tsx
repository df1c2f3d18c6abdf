"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

const everyMs = 2_000;

/** Draws the page anew every now and then, for as long as it is shown: what it tells of is being made. */
export function LookAgain() {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => router.refresh(), everyMs);
    return () => clearInterval(timer);
  }, [router]);
  return null;
}
