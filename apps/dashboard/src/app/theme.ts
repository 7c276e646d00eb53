import { createTheme, type MantineColorsTuple } from '@mantine/core'
import { t } from '../lib/reader.ts'
import { decimalSign, readDecimalSign } from '../lib/decimal-comma.ts'

/** Layout blue: the marking-out dye of the metal trade. What can be pressed has this colour, and nothing else has. */
const layoutBlue: MantineColorsTuple = [
  '#edf2fa',
  '#d8e2f2',
  '#b0c5e4',
  '#86a6d6',
  '#6f96d2',
  '#4674ba',
  '#2c5ca6',
  '#1d4480',
  '#173868',
  '#102a50',
]

/** Zinc: the greys of bare and galvanised sheet, a little green in them. */
const zinc: MantineColorsTuple = [
  '#f5f7f7',
  '#e7eaea',
  '#d3d8d8',
  '#b4bcbc',
  '#8f9a9b',
  '#5f6b6d',
  '#475254',
  '#323b3d',
  '#222a2c',
  '#14191b',
]

/** The same greys by night: what the component library draws its dark surfaces with. */
const zincByNight: MantineColorsTuple = [
  '#eaeeee',
  '#c2cccd',
  '#aab5b6',
  '#7d898b',
  '#4a5658',
  '#323c3e',
  '#222a2c',
  '#1d2426',
  '#14191b',
  '#101416',
]

const oxide: MantineColorsTuple = [
  '#fdefec',
  '#f8d9d2',
  '#efb0a4',
  '#ee8f7f',
  '#e5705e',
  '#cf4a37',
  '#b5321f',
  '#982515',
  '#7b1c0f',
  '#5d1309',
]

export const theme = createTheme({
  primaryColor: 'layoutBlue',
  primaryShade: { light: 7, dark: 5 },
  colors: { layoutBlue, gray: zinc, dark: zincByNight, red: oxide },
  black: '#161d1f',
  defaultRadius: 3,
  fontFamily:
    'ui-sans-serif, system-ui, "Segoe UI", Roboto, "Noto Sans", "Helvetica Neue", Arial, sans-serif',
  fontFamilyMonospace: 'ui-monospace, "Cascadia Mono", "DejaVu Sans Mono", Menlo, Consolas, monospace',
  fontSizes: { xs: '0.8125rem', sm: '0.875rem', md: '1rem', lg: '1.125rem', xl: '1.375rem' },
  lineHeights: { xs: '1.35', sm: '1.4', md: '1.45', lg: '1.4', xl: '1.3' },
  spacing: { xs: '0.375rem', sm: '0.625rem', md: '1rem', lg: '1.5rem', xl: '2.25rem' },
  headings: {
    fontWeight: '650',
    sizes: {
      h1: { fontSize: '1.625rem', lineHeight: '1.2' },
      h2: { fontSize: '1.125rem', lineHeight: '1.3' },
      h3: { fontSize: '1rem', lineHeight: '1.35' },
    },
  },
  focusRing: 'auto',
  cursorType: 'pointer',
  components: {
    Button: { defaultProps: { size: 'sm' } },
    Modal: {
      // Asked when it is shown: the words come after the theme.
      defaultProps: () => ({
        radius: 4,
        padding: 'lg',
        overlayProps: { backgroundOpacity: 0.5 },
        closeButtonProps: { 'aria-label': t('app.close') },
      }),
    },
    PasswordInput: {
      defaultProps: () => ({ visibilityToggleButtonProps: { 'aria-label': t('app.showThePassword') } }),
    },
    NumberInput: {
      defaultProps: () => ({
        decimalSeparator: decimalSign(),
        // What is kept of a number that is being typed has a point, whatever is shown.
        valueIsNumericString: true,
        onInputCapture: readDecimalSign,
      }),
    },
    NativeSelect: { defaultProps: { size: 'sm' } },
    TextInput: { defaultProps: { size: 'sm' } },
  },
})
