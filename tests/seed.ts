import fc from 'fast-check';

// The same random cases on every run, so that a red test is a change's own. For others: SEED=7 npm test.
fc.configureGlobal({ seed: Number(process.env.SEED ?? 1) });
