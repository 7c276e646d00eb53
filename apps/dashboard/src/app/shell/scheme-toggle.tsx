import { ActionIcon, useComputedColorScheme, useMantineColorScheme } from '@mantine/core'
import { Moon, Sun } from 'lucide-react'
import { t } from '../../lib/reader.ts'

export function SchemeToggle() {
  const { setColorScheme } = useMantineColorScheme()
  const scheme = useComputedColorScheme('light')
  const other = scheme === 'light' ? 'dark' : 'light'
  return (
    <ActionIcon
      variant="default"
      size="input-sm"
      aria-label={t('app.switchToColours', { other })}
      onClick={() => setColorScheme(other)}
    >
      {scheme === 'light' ? <Moon size={18} aria-hidden /> : <Sun size={18} aria-hidden />}
    </ActionIcon>
  )
}
