/** A chart of the open job, computed in the worker. */
import { useMemo } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import type { LoopChart, RiseChart } from './contract.ts';
import { useThought, type Thought } from './use-thought.ts';

interface Charts {
  readonly rise: RiseChart | undefined;
  readonly loop: LoopChart | undefined;
}

export function useChart<K extends keyof Charts>(kind: K): Thought<Charts[K]> {
  const { job } = useOpenJob();
  const question = useMemo(() => JSON.stringify([kind, job.boat, job.visits]), [kind, job.boat, job.visits]);
  return useThought<Charts[K]>(kind, question, async (thinking) => (await thinking[kind](job)) as Charts[K]);
}
