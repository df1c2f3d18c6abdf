"use client";

import { useEffect, useEffectEvent, useState } from "react";
import type { JobView } from "../../_jobs/job-registry.ts";

/**
 * Follows a job of the server as it tells its progress. `onEnd` is called once with how it ended; with null where the
 * server does not know the job any more.
 */
export function useJob(job: string | null, onEnd: (ended: JobView | null) => void): JobView | null {
  const [view, setView] = useState<JobView | null>(null);
  const ended = useEffectEvent(onEnd);

  useEffect(() => {
    setView(null);
    if (job === null) return;
    const events = new EventSource(`/api/jobs/${job}/events`);
    events.onmessage = (event: MessageEvent<string>) => {
      const news = JSON.parse(event.data) as JobView;
      setView(news);
      if (news.state === "running") return;
      events.close();
      ended(news);
    };
    // A lost line is taken up again by itself; only an answer that is no stream ends it.
    events.onerror = () => {
      if (events.readyState === EventSource.CLOSED) ended(null);
    };
    return () => events.close();
  }, [job]);

  return view;
}
