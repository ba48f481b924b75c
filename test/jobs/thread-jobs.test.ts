import { startThreadJobs } from '../../src/jobs/thread-jobs.ts';
import type { Sum } from './adding-worker.ts';
import { describeJobs } from './jobs-contract.ts';

describeJobs('threads', async () => {
  const workerFile = new URL('./adding-worker.ts', import.meta.url);
  const jobs = startThreadJobs<Sum, { sum: number }>({ workerFile, threads: 2 });
  return { jobs, close: () => jobs.close() };
});
