declare module 'async-exit-hook' {
  const exitHook: { readonly hookedEvents: () => string[]; readonly unhookEvent: (event: string) => void }
  export default exitHook
}
