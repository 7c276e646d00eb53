/** What the field of every screen loads a little later, in one piece. */
export { CameraDialog } from './camera-dialog.tsx'
export { NotFoundDialog } from './not-found-dialog.tsx'
