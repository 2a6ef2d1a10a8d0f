import {
  ActionIcon,
  Button,
  createTheme,
  type MantineColorsTuple,
  Menu,
  Modal,
  NumberInput,
  Portal,
  Select,
  Table,
  TextInput,
  Tooltip,
} from '@mantine/core';

/** Amber: the lamp over the table. Index 5 is the colour itself, as `--lamp` in tokens.css. */
const lamp: MantineColorsTuple = [
  '#fff6e2',
  '#fdeac4',
  '#fadb9b',
  '#f7cb70',
  '#f4be55',
  '#f2b544',
  '#d99c2b',
  '#b07c1c',
  '#7f5a14',
  '#4f380d',
];

/** Sky: what the program predicted. */
const guess: MantineColorsTuple = [
  '#e8f6ff',
  '#cbe9fb',
  '#a9daf6',
  '#8fcef2',
  '#7cc4ef',
  '#63b3e3',
  '#4597c9',
  '#3079a6',
  '#225a7d',
  '#163d56',
];

/** The greys of the room, text first, deepest last. */
const dark: MantineColorsTuple = [
  '#f1f3ef',
  '#d3dada',
  '#b9c3c4',
  '#8f9c9f',
  '#45535b',
  '#242d32',
  '#1a2125',
  '#12171a',
  '#0e1214',
  '#0b0e10',
];

/** Mantine's parts in our look: square, tight, quiet until they are chosen. */
export const theme = createTheme({
  colors: { lamp, guess, dark },
  primaryColor: 'lamp',
  primaryShade: 5,
  autoContrast: true,
  luminanceThreshold: 0.4,
  defaultRadius: 3,
  fontFamily: 'var(--font)',
  fontFamilyMonospace: 'var(--mono)',
  headings: { fontFamily: 'var(--font)', fontWeight: '640' },
  fontSizes: {
    xs: 'var(--size-xs)',
    sm: 'var(--size-s)',
    md: 'var(--size-m)',
    lg: 'var(--size-l)',
    xl: 'var(--size-xl)',
  },
  spacing: { xs: '6px', sm: '8px', md: '12px', lg: '18px', xl: '26px' },
  cursorType: 'pointer',
  components: {
    ActionIcon: ActionIcon.extend({ defaultProps: { variant: 'subtle', color: 'gray', size: 'md' } }),
    Button: Button.extend({ defaultProps: { size: 'xs', variant: 'default' } }),
    TextInput: TextInput.extend({ defaultProps: { size: 'xs' } }),
    NumberInput: NumberInput.extend({ defaultProps: { size: 'xs', hideControls: true } }),
    Select: Select.extend({ defaultProps: { size: 'xs' } }),
    Menu: Menu.extend({
      // the placeholder would be a child that a menu may not have
      defaultProps: { shadow: 'md', withinPortal: true, withInitialFocusPlaceholder: false },
    }),
    Modal: Modal.extend({ defaultProps: { centered: true, overlayProps: { backgroundOpacity: 0.7 } } }),
    Portal: Portal.extend({ defaultProps: { target: '#over' } }),
    Table: Table.extend({ defaultProps: { verticalSpacing: 4, horizontalSpacing: 10 } }),
    Tooltip: Tooltip.extend({ defaultProps: { openDelay: 500, withArrow: true, color: 'dark.5' } }),
  },
});
