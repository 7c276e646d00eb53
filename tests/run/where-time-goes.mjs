// Says after a run where its time went, so that a file that has grown slow is seen before it is a habit: the sum of each
// project, and its slowest files with what of each was spent before its first test.
import { relative } from 'node:path'

const SLOWEST = 5

export default class WhereTimeGoes {
  #startedAt = 0

  onTestRunStart() {
    this.#startedAt = Date.now()
  }

  onTestRunEnd(modules) {
    if (modules.length < 2) return
    const projects = new Map()
    for (const module of modules) {
      const { prepareDuration, environmentSetupDuration, collectDuration, setupDuration, duration } =
        module.diagnostic()
      const beforeMs = prepareDuration + environmentSetupDuration + collectDuration + setupDuration
      const files = projects.get(module.project.name) ?? []
      files.push({ path: module.moduleId, ms: beforeMs + duration, beforeMs })
      projects.set(module.project.name, files)
    }
    const lines = [`Where the time went (${seconds(Date.now() - this.#startedAt)} by the clock):`]
    for (const [name, files] of projects) {
      const sum = files.reduce((ms, file) => ms + file.ms, 0)
      lines.push(`  ${name}: ${seconds(sum)} in ${files.length} files; the slowest:`)
      for (const { path, ms, beforeMs } of files.toSorted((a, b) => b.ms - a.ms).slice(0, SLOWEST))
        lines.push(
          `    ${seconds(ms).padStart(7)}  ${relative(process.cwd(), path)} (${seconds(beforeMs)} of it loading)`,
        )
    }
    console.log(`\n${lines.join('\n')}`)
  }
}

const seconds = (ms) => `${(ms / 1000).toFixed(1)} s`
