/** What is not with the service yet, in one piece: it comes beside the page, before there can be anything to show. */
export { ActsAtWork } from './acts-at-work.tsx'
export { ActsMark } from './acts-mark.tsx'
export { JointActs } from './joint-acts.tsx'
