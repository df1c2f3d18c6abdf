"use client";

import { useEffect, useState } from "react";

const channelName = "borecast-test-sheets";
/** Pages of one browser answer in some milliseconds, also those in the background. */
const usual: Times = { answerWithinMs: 400, againAfterMs: 5_000 };

interface Times {
  readonly answerWithinMs: number;
  readonly againAfterMs: number;
}

type Said = { readonly asks: string } | { readonly has: string } | { readonly leaves: string };

/**
 * Tells whether another page of this browser has the sheet open, at once and whenever that changes; a page that ended without
 * a word is missed at the next asking. Gives what ends it.
 */
export function watchElsewhere(id: string, tell: (isOpen: boolean) => void, times: Times = usual) {
  const channel = new BroadcastChannel(channelName);
  let isAnswered = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const say = (said: Said) => channel.postMessage(said);
  const heard = () => {
    isAnswered = true;
    tell(true);
  };
  const ask = () => {
    isAnswered = false;
    say({ asks: id });
    clearTimeout(waiting);
    waiting = setTimeout(() => tell(isAnswered), times.answerWithinMs);
  };
  channel.onmessage = ({ data }: { readonly data: Said }) => {
    if ("asks" in data && data.asks === id) {
      say({ has: id });
      heard();
    } else if ("has" in data && data.has === id) heard();
    else if ("leaves" in data && data.leaves === id) ask();
  };
  ask();
  const again = setInterval(ask, times.againAfterMs);
  return () => {
    say({ leaves: id });
    clearInterval(again);
    clearTimeout(waiting);
    channel.close();
  };
}

/** Whether another page of this browser has the sheet open; null: none is looked at. */
export function useOpenElsewhere(id: string | null): boolean {
  const [isOpen, setOpen] = useState(false);
  useEffect(() => {
    setOpen(false);
    if (id === null || typeof BroadcastChannel === "undefined") return;
    let end: (() => void) | null = watchElsewhere(id, setOpen);
    const leave = () => {
      end?.();
      end = null;
    };
    // A page that is put away may be brought back as it was.
    const back = () => {
      end ??= watchElsewhere(id, setOpen);
    };
    window.addEventListener("pagehide", leave);
    window.addEventListener("pageshow", back);
    return () => {
      leave();
      window.removeEventListener("pagehide", leave);
      window.removeEventListener("pageshow", back);
    };
  }, [id]);
  return isOpen;
}
