export const patterns = {
  'attachment.tooLarge': 'has {kilobytes} kB; a photo may have 400 kB',
  'attachment.tooLargeFix': 'Scale it down: 1600 pixels along the longer side show what matters',
  'attachment.noPicture': 'is no whole JPEG, PNG or WebP picture',
  'attachment.noPictureFix': 'Send a still picture of one of these kinds, not cut short',
  'attachment.tooManyPixels': 'has {width} × {height} pixels; a photo may have 40 million in all',
  'attachment.tooSmall': 'has only {width} × {height} pixels',
  'attachment.tooSmallFix': 'Send a photo of at least {side} × {side} pixels',
  'attachment.inTheFuture': 'is in the future: is the clock of the device right?',
  'attachment.noBondOfIt': 'names no bond of this repair order and joint',
  'attachment.noJointOfIt': 'names no joint of this repair order',
  'attachment.full':
    'There are {most} {kind, select, photo{photos} other{notes}} of it already, and more would not be looked through',
  'attachment.fullFix':
    '{of, select, vehicle{Add it to the joint that it is about} other{Add it to the vehicle, or to another joint that it is about}}',
  'attachment.withdrawnAlready': '{by} has withdrawn it already',
} as const
