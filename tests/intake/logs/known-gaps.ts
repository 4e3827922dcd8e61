/** Logs that do not come out right yet, by name, with what is amiss. One that comes out right must be taken off: the list only shrinks. */
export const KNOWN_GAPS: Readonly<Record<string, string>> = {
  'a clock beside the date under Finnish headers':
    'still open after the answers: State at which stage this was measured: no column says it.',
  'a clock beside the date, neither named':
    'still open after the answers: State at which stage this was measured: no column says it.',
  'a clock with h in it, as French and Portuguese write it':
    'missing: 2026-11-13T08:05 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'dates year first with two digits': 'missing: 2026-11-03T08:12 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'dates year first with two digits and days beyond the years':
    'missing: 2026-11-30T23:58 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'dates of six digits without marks': 'missing: 2026-11-03T08:12:05 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'elapsed minutes and seconds of a run-in':
    'missing: 2026-11-03T08:00:30 | T-0001 | 12V main | run-in | DC volts: value 12.05 V',
  'elapsed seconds that count by tenths':
    'missing: 2026-11-03T00:00 | T-0001 | 12V main | run-in | DC volts: value 12.06 V',
  'seconds since 1970':
    'still open after the answers: State the day, or the start of the elapsed time: without it no reading has a time.',
  'milliseconds since 1970 under a name that says nothing':
    'missing: 2026-11-03T08:12:05 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'day numbers of a spreadsheet': 'missing: 2026-11-03T08:12:05 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'whole day numbers of a spreadsheet': 'missing: 2026-11-03T00:00 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'months in German words': 'missing: 2026-03-13T09:15 | T-0002 | bulk | live | DC volts: value 389 V',
  'months in Russian and Polish words in one shop':
    'missing: 2026-11-03T08:12 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'days as year, month and day in Chinese and Japanese':
    'missing: 2026-11-03T08:12 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'weekday, month, day, as a phone writes them':
    'missing: 2026-11-03T08:12 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'elapsed m:ss of a short run-in':
    'missing: 2026-11-03T09:00:20 | T-0001 | 12V main | run-in | DC volts: value 12.05 V',
  'elapsed mm:ss.s of a logger': 'missing: 2026-11-03T09:00 | T-0001 | 12V main | run-in | DC volts: value 12.06 V',
  'elapsed hours beyond a day': 'missing: 2026-11-04T10:00 | T-0001 | 12V main | run-in | DC volts: value 12.01 V',
  'seconds since 1970 with a fraction':
    'still open after the answers: State the day, or the start of the elapsed time: without it no reading has a time.',
  'a spreadsheet day beside a fraction of the day':
    'missing: 2026-11-03T12:00 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'a clock that was never set': 'no notice says /1970|far from/:',
  'OL in a status column beside the value':
    'missing: - | T-0001 | Q2 D-S | as received | resistance: over-range 60000000 Ω',
  'a remark column that says open': 'not asked: columns',
  'a bare OL whose mode the other rows of its point tell':
    'missing: - | T-0002 | Q1 D-S | part out | resistance: over-range',
  'a number and a beep in one cell': 'missing: - | T-0001 | F1 | as received | continuity: value 0.3 Ω',
  '1. among 5. and 12., where a spreadsheet left the mark':
    'missing: - | T-0001 | R1 | part out | resistance: value 1 Ω',
  'minus in brackets, as bookkeepers write it': 'missing: - | T-0001 | neg rail | live | DC volts: value -12.3 V',
  'a sign in a column of its own': 'missing: - | T-0001 | neg rail | live | DC volts: value -12.3 V',
  'minus at the end and true minus signs': 'missing: - | T-0001 | neg rail | live | DC volts: value -12.3 V',
  'numbers shielded from the spreadsheet': 'missing: - | 000124 | bulk | live | DC volts: value 388.4 V',
  'upper-case logger, M for milli': 'not asked: columns',
  'mega-amperes, which no bench shows': 'never written: - | T-0001 | standby | live | current: value 12400000 A',
  'milliohms at a point of megohms': 'no notice says /line 5|1\\\\.2 mΩ|power|thousand/:',
  'a range beside the value, which is shown in the unit of the range': 'not asked: columns',
  'both decimal marks where each cell can mean one thing only':
    'missing: - | T-0001 | bulk | live | DC volts: value 388.4 V',
  'both decimal marks, one cell of which can mean two things':
    'missing: - | T-0001 | standby | live | DC volts: value 5.02 V',
  'a decimal comma in quotation marks among decimal points':
    'missing: - | T-0001 | standby | live | DC volts: value 5.02 V',
  'an apostrophe before text, as a spreadsheet keeps it': 'missing: - | 000124 | bulk | live | DC volts: value 388.4 V',
  'shielded repairs with plain readings': 'missing: - | 0001 | bulk | live | DC volts: value 388.4 V',
  'shields written as CSV writes quotation marks': 'missing: - | 000124 | bulk | live | DC volts: value 388.4 V',
  'brackets around a number with its unit': 'missing: - | T-0001 | neg rail | live | DC volts: value -12.3 V',
  'dashes of all lengths for minus': 'missing: - | T-0002 | neg rail | live | DC volts: value -12.1 V',
  'full-width digits of an East Asian keyboard': 'missing: - | T-0001 | bulk | live | DC volts: value 388.4 V',
  'Arabic digits and their decimal mark': 'missing: - | T-0001 | bulk | live | DC volts: value 388.4 V',
  'points with numbers, letters and modes in their headers':
    'missing: - | T-0001 | backlight A | live | DC volts: value 186.2 V',
  'points in square brackets, units behind a slash': 'missing: - | T-0001 | bulk | live | DC volts: value 388.4 V',
  'a line of units under the header':
    'still open after the answers: State which test point was probed: no column says it.',
  'Value 1, Unit 1, Value 2, Unit 2 of a meter with two displays':
    'missing: 2026-11-03T08:12:00 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'main and second display, the second a frequency':
    'missing: 2026-11-03T08:12:00 | T-0001 | mains | live | AC volts: value 230.4 V',
  'a row counter named ID, and repairs under another word':
    'missing: - | T-0001 | bulk | live | DC volts: value 388.4 V',
  'a sample counter before the value':
    'missing: 2026-11-03T08:12:00 | T-0001 | 12V main | run-in | DC volts: value 12.05 V',
  'a device block of many lines before the header': 'not asked: given',
  'a second table with other units below':
    'line 5 is good, yet set aside: This line looks like the header of another table. Save that table as a file of its own.',
  'a second table with other columns below':
    'line 4 is good, yet set aside: This line looks like the header of another table. Save that table as a file of its own.',
  'whole lines in quotation marks':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'whole lines in quotation marks with cells quoted within':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'whole lines in quotation marks with semicolons':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'columns aligned by blanks': 'not asked: given',
  'columns aligned by blanks with names of two words':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'columns aligned by blanks, numbers to the right': 'not asked: given',
  'a colon between the cells of a wide sheet': 'not asked: given',
  'a last line that ends in the middle of a number':
    'line 4 must be set aside with /line end|unfinished|ends/: “38” in column “reading” has no unit, and nothing else says what was measured. Add the unit,',
  'a last line that looks whole and has no line end': 'never written: - | T-0002 | bulk | live | DC volts: value 38 V',
  'an old page with a micro sign that looks like another letter': 'not asked: encoding',
  'an old page with accents in names': 'RangeThe "cp850" encoding is not supported',
  'an old page in the header alone': 'RangeThe "cp850" encoding is not supported',
  'repairs under the words of a shop':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'repairs under foreign headers':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'repairs without a header':
    'still open after the answers: Say what the file holds, or choose what one of its columns is read as.',
  'before and after beside each other': 'not asked: columns',
  'a channel in place of a point': 'not asked: columns',
  'units and values in one header, a clock in another language':
    'missing: 2026-11-03T08:12 | T-0001 | bulk | live | DC volts: value 388.4 V',
  'headers in capitals with dots and numbers before them':
    'still open after the answers: State which repair these readings belong to: no column says it.',
  'days that a spreadsheet wrote with 00:00:00': 'midnight of every row is taken for a time, not for a day alone',
};
