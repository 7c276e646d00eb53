import sample from '/work/wt/mut/tests/mutation/sample.stryker.config.mjs'
export default { ...sample, mutate: ['packages/cure/src/careful/bins.ts', 'packages/cure/src/estimate/doubt.ts', 'packages/cure/src/careful/place.ts'] }
