/** What is seen once adhesive is on, in one piece: a job that has none loads none of it. */
export { AfterRelease, AfterReleaseOfJob } from './after-release.tsx'
export { LiftedDialog } from './lifted-dialog.tsx'
export { SlipButtons } from './slip-buttons.tsx'
