interface Page {
  readonly nextCursor: string | null
}

/** How every cursor page goes on: from the beginning, until the service names no next cursor. */
export const byCursor = {
  // An `as`, since an annotated const would be narrowed to `undefined` where it is used.
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page: Page) => page.nextCursor ?? undefined,
}
