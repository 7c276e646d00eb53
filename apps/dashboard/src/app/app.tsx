import { MantineProvider } from '@mantine/core'
import { QueryClientProvider } from '@tanstack/react-query'
import { RouterProvider } from '@tanstack/react-router'
import { createQueryClient } from './query-client.ts'
import { useReader } from '../lib/reader.ts'
import { router } from './router.tsx'
import { theme } from './theme.ts'

const client = createQueryClient()

export function App() {
  const { language, temperature, volume, length, clock, firstDay } = useReader()
  return (
    <MantineProvider theme={theme} defaultColorScheme="auto">
      <QueryClientProvider client={client}>
        {/* Words and units are looked up as things are drawn: another reader's are drawn anew. */}
        <RouterProvider
          key={[language, temperature, volume, length, clock, firstDay].join()}
          router={router}
        />
      </QueryClientProvider>
    </MantineProvider>
  )
}
