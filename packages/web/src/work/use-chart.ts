/** A chart of the open job, computed in the worker. */
import { useMemo } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import type { LoopChart, RiseChart } from './contract.ts';
import { useThought, type Thought } from './use-thought.ts';
import type { ChargingPair } from './worker.ts';

/** The rise of one bank; of the first when none is named. */
export function useRise(battery: string | undefined): Thought<RiseChart | undefined> {
  const { job } = useOpenJob();
  const question = useMemo(
    () => JSON.stringify([job.boat, job.visits, battery]),
    [job.boat, job.visits, battery],
  );
  return useThought('rise', question, async (thinking) => thinking.rise(job, battery));
}

/** The loop of one alternator and bank; of the first pair when none is named. */
export function useLoop(
  alternator: string | undefined,
  battery: string | undefined,
): Thought<LoopChart | undefined> {
  const { job } = useOpenJob();
  const question = useMemo(
    () => JSON.stringify([job.boat, job.visits, alternator, battery]),
    [job.boat, job.visits, alternator, battery],
  );
  return useThought('loop', question, async (thinking) => thinking.loop(job, alternator, battery));
}

/** The alternators and banks that the wiring joins. */
export function usePairs(): readonly ChargingPair[] {
  const { job } = useOpenJob();
  const question = useMemo(() => JSON.stringify(job.boat), [job.boat]);
  return useThought('pairs', question, async (thinking) => thinking.pairs(job)).value ?? [];
}
