/** Wall time, or with `--cpu` the processor time of this process: fairer on a machine that others use too. */
export const clock = (useCpu: boolean): (() => number) =>
  useCpu
    ? () => {
        const { user, system } = process.cpuUsage()
        return (user + system) / 1000
      }
    : () => performance.now()
