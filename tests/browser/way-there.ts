import {
  createServer,
  request,
  type IncomingHttpHeaders,
  type IncomingMessage,
  type ServerResponse,
} from 'node:http'
import type { AddressInfo } from 'node:net'
import { baseUrl } from './browser.ts'

/** A way to the service that can be cut, and that can lead to a newer build of the dashboard. */
export interface Way {
  readonly address: string
  /** From now on nobody answers: whoever asks is cut off. */
  readonly cut: () => void
  readonly mend: () => void
  /** From now on what is asked arrives, and nobody hears the answer; questions that change nothing are answered. */
  readonly loseAnswers: () => void
  /** Requests that were passed on and could change something, as `POST /v1/…`. */
  readonly passed: readonly string[]
  /** From now on the page and its worker are those of the build of that name. */
  readonly upgrade: (build: string) => void
  readonly close: () => Promise<void>
}

export async function openWay(): Promise<Way> {
  let isCut = false
  let isLosing = false
  let build: string | undefined
  const passed: string[] = []
  const server = createServer((asked, answer) => {
    if (isCut) {
      asked.socket.destroy()
      return
    }
    const changes = asked.method !== 'GET'
    if (changes) passed.push(`${asked.method} ${asked.url}`)
    passOn(asked, answer, { build, isLost: changes && isLosing })
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    cut: () => {
      isCut = true
      server.closeAllConnections()
    },
    mend: () => {
      isCut = false
      isLosing = false
    },
    loseAnswers: () => {
      isLosing = true
    },
    passed,
    upgrade: (name) => {
      build = name
    },
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections()
        server.close(() => resolve())
      }),
  }
}

/** Without what asks for no more than whether anything changed: another build always did. */
function unconditional({
  'if-none-match': _tag,
  'if-modified-since': _since,
  ...headers
}: IncomingHttpHeaders) {
  return { ...headers, 'accept-encoding': 'identity' }
}

interface Manner {
  readonly build: string | undefined
  /** The answer is waited for, and then dropped. */
  readonly isLost: boolean
}

function passOn(asked: IncomingMessage, answer: ServerResponse, { build, isLost }: Manner): void {
  const onward = request(
    new URL(asked.url ?? '/', baseUrl()),
    { method: asked.method, headers: unconditional(asked.headers) },
    (response) => {
      if (isLost) {
        response.resume()
        response.on('end', () => asked.socket.destroy())
        return
      }
      if (build === undefined || !isOfTheBuild(asked, response)) {
        answer.writeHead(response.statusCode ?? 502, response.headers)
        response.pipe(answer)
        return
      }
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => {
        const {
          'content-length': _length,
          etag: _etag,
          'last-modified': _modified,
          ...headers
        } = response.headers
        answer.writeHead(200, headers)
        answer.end(renamed(Buffer.concat(parts).toString(), build))
      })
    },
  )
  onward.on('error', () => asked.socket.destroy())
  answer.on('close', () => onward.destroy())
  asked.pipe(onward)
}

function isOfTheBuild(asked: IncomingMessage, response: IncomingMessage): boolean {
  return asked.url === '/sw.js' || (response.headers['content-type'] ?? '').startsWith('text/html')
}

/** What another build changes in both: the worker's name for it, and here a word in the page that shows which it is. */
function renamed(text: string, build: string): string {
  return text
    .replace(/"?build"?:\s*"\w+"/, `build:"${build}"`)
    .replace('<head>', `<head><meta name="build" content="${build}">`)
}
