type Box = Awaited<ReturnType<typeof import('./box.ts').openBox>>
let opened: Promise<Box> | undefined

/** The box of this page: its code comes beside the page, and is asked for again where it did not come. */
export function theBox(): Promise<Box> {
  opened ??= import('./box.ts')
    .then(({ openBox }) => openBox())
    .catch((error: unknown) => {
      opened = undefined
      throw error
    })
  return opened
}
