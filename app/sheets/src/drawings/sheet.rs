//! The sheet of paper: lines, circles, lettering, written down as one SVG string.

use core::f64::consts::PI;

use super::reckon::sin_cos;

/// The width that every drawing is made for: a phone's column, in CSS pixels.
pub(crate) const COLUMN: f64 = 342.0;

/// A place on the sheet, x to the right and y downwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

/// The place `(x, y)`.
pub(crate) const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Point {
    /// The place `radius` away at `angle` radians, clockwise from 3 o'clock.
    pub(crate) fn polar(self, radius: f64, angle: f64) -> Point {
        let (sin, cos) = sin_cos(angle);
        at(self.x + radius * cos, self.y + radius * sin)
    }

    /// The same place moved.
    pub(crate) fn shifted(self, dx: f64, dy: f64) -> Point {
        at(self.x + dx, self.y + dy)
    }

    /// How far to another place.
    pub(crate) fn distance(self, other: Point) -> f64 {
        let (x, y) = (self.x - other.x, self.y - other.y);
        (x * x + y * y).sqrt()
    }
}

/// Radians of a clock face: 0 at 12 o'clock, going clockwise, in whole turns.
pub(crate) fn clock(turns: f64) -> f64 {
    (turns - 0.25) * 2.0 * PI
}

/// Writes a number with at most two decimals, and nothing that needn't be there.
///
/// What isn't a number is written as 0. `f64`'s own printing would cost the page 8 kB.
pub(crate) fn number(out: &mut String, value: f64) {
    // A cast from f64 stops at the ends of u32, and makes 0 of what isn't a number.
    let size = (value.abs() * 100.0 + 0.5) as u32;
    if value < 0.0 && size > 0 {
        out.push('-');
    }
    let (whole, part) = (size / 100, size % 100);
    if whole > 0 || part == 0 {
        out.push_str(&whole.to_string());
    }
    if part > 0 {
        out.push('.');
        digit(out, part / 10);
        if part % 10 > 0 {
            digit(out, part % 10);
        }
    }
}

fn digit(out: &mut String, value: u32) {
    out.push(char::from_digit(value, 10).unwrap_or('0'));
}

/// A count as it is lettered, as everywhere: `1030`, never with a comma, which is read as a decimal point.
pub(crate) fn grouped(count: u32) -> String {
    latheside_core::quantity::show::count(count.into())
}

/// The `d` of a path.
#[derive(Default)]
pub(crate) struct Path(String);

impl Path {
    /// Nothing drawn yet.
    pub(crate) fn new() -> Path {
        Path::default()
    }

    fn command(&mut self, letter: char, point: Point) -> &mut Path {
        self.0.push(letter);
        number(&mut self.0, point.x);
        self.0.push(' ');
        number(&mut self.0, point.y);
        self
    }

    /// Lifts the pen to a place.
    pub(crate) fn go(&mut self, point: Point) -> &mut Path {
        self.command('M', point)
    }

    /// A straight line to a place.
    pub(crate) fn line(&mut self, point: Point) -> &mut Path {
        self.command('L', point)
    }

    /// One straight line by itself.
    pub(crate) fn stroke(&mut self, from: Point, to: Point) -> &mut Path {
        self.go(from).line(to)
    }

    /// An arc of `radius` to a place; `long` the longer way round.
    pub(crate) fn arc(&mut self, radius: f64, long: bool, clockwise: bool, to: Point) -> &mut Path {
        self.0.push('A');
        number(&mut self.0, radius);
        self.0.push(' ');
        number(&mut self.0, radius);
        self.0.push_str(if long { " 0 1 " } else { " 0 0 " });
        self.0.push_str(if clockwise { "1 " } else { "0 " });
        number(&mut self.0, to.x);
        self.0.push(' ');
        number(&mut self.0, to.y);
        self
    }

    /// A curve to a place, drawn towards a corner.
    pub(crate) fn bend(&mut self, corner: Point, to: Point) -> &mut Path {
        self.command('Q', corner);
        self.0.push(' ');
        number(&mut self.0, to.x);
        self.0.push(' ');
        number(&mut self.0, to.y);
        self
    }

    /// A whole circle.
    pub(crate) fn circle(&mut self, centre: Point, radius: f64) -> &mut Path {
        let (left, right) = (centre.shifted(-radius, 0.0), centre.shifted(radius, 0.0));
        self.go(left).arc(radius, false, true, right).arc(radius, false, true, left).close()
    }

    /// Straight lines through every place, closed.
    pub(crate) fn polygon(&mut self, points: &[Point]) -> &mut Path {
        for (index, point) in points.iter().enumerate() {
            self.command(if index == 0 { 'M' } else { 'L' }, *point);
        }
        self.close()
    }

    /// A rectangle from corner to corner.
    pub(crate) fn rectangle(&mut self, from: Point, to: Point) -> &mut Path {
        self.polygon(&[from, at(to.x, from.y), to, at(from.x, to.y)])
    }

    /// Back to where the pen came down.
    pub(crate) fn close(&mut self) -> &mut Path {
        self.0.push('z');
        self
    }

    /// Whether nothing has been drawn.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Which end of the lettering stands at the place given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Stand {
    Start,
    Middle,
    End,
}

/// A drawing being made.
pub(crate) struct Sheet(String);

impl Sheet {
    /// A sheet in CSS pixels that shrinks and grows with its column.
    ///
    /// `kind` becomes the class `d-kind`; `said` is what a screen reader says of the drawing.
    pub(crate) fn new(kind: &str, width: f64, height: f64, said: &str) -> Sheet {
        Sheet::open(kind, width, height, said, false)
    }

    /// A sheet in millimetres, printed as large as it is.
    pub(crate) fn full_size(kind: &str, width: f64, height: f64, said: &str) -> Sheet {
        Sheet::open(kind, width, height, said, true)
    }

    fn open(kind: &str, width: f64, height: f64, said: &str, full_size: bool) -> Sheet {
        let mut out = String::with_capacity(4096);
        out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawing d-");
        out.push_str(kind);
        if full_size {
            out.push_str("\" width=\"");
            number(&mut out, width);
            out.push_str("mm\" height=\"");
            number(&mut out, height);
            out.push_str("mm");
        }
        out.push_str("\" viewBox=\"0 0 ");
        number(&mut out, width);
        out.push(' ');
        number(&mut out, height);
        out.push_str("\" role=\"img\" aria-label=\"");
        escape(&mut out, said);
        out.push_str("\">");
        Sheet(out)
    }

    /// Rules for a drawing that no page styles.
    pub(crate) fn style(&mut self, rules: &str) {
        self.0.push_str("<style>");
        self.0.push_str(rules);
        self.0.push_str("</style>");
    }

    fn attribute(&mut self, name: &str, value: f64) {
        self.0.push(' ');
        self.0.push_str(name);
        self.0.push_str("=\"");
        number(&mut self.0, value);
        self.0.push('"');
    }

    fn tag(&mut self, name: &str, class: &str) {
        self.0.push('<');
        self.0.push_str(name);
        self.0.push_str(" class=\"");
        self.0.push_str(class);
        self.0.push('"');
    }

    /// A path; nothing where the path is empty.
    pub(crate) fn path(&mut self, class: &str, path: &Path) {
        if !path.is_empty() {
            self.tag("path", class);
            self.0.push_str(" d=\"");
            self.0.push_str(&path.0);
            self.0.push_str("\"/>");
        }
    }

    /// A path drawn with a line of its own weight.
    pub(crate) fn weighted(&mut self, class: &str, weight: f64, path: &Path) {
        if !path.is_empty() {
            self.tag("path", class);
            self.attribute("stroke-width", weight);
            self.0.push_str(" d=\"");
            self.0.push_str(&path.0);
            self.0.push_str("\"/>");
        }
    }

    /// One straight line.
    pub(crate) fn line(&mut self, class: &str, from: Point, to: Point) {
        let mut path = Path::new();
        path.stroke(from, to);
        self.path(class, &path);
    }

    /// A circle.
    pub(crate) fn circle(&mut self, class: &str, centre: Point, radius: f64) {
        self.tag("circle", class);
        self.attribute("cx", centre.x);
        self.attribute("cy", centre.y);
        self.attribute("r", radius);
        self.0.push_str("/>");
    }

    /// A line of lettering on its baseline.
    pub(crate) fn text(&mut self, class: &str, stand: Stand, place: Point, words: &str) {
        self.tag("text", class);
        self.attribute("x", place.x);
        self.attribute("y", place.y);
        self.0.push_str(match stand {
            Stand::Start => ">",
            Stand::Middle => " text-anchor=\"middle\">",
            Stand::End => " text-anchor=\"end\">",
        });
        escape(&mut self.0, words);
        self.0.push_str("</text>");
    }

    /// A label: words, with every word that opens with a figure set as a figure.
    pub(crate) fn label(&mut self, stand: Stand, place: Point, words: &str) {
        self.text("d-word", stand, place, "");
        self.0.truncate(self.0.len() - "</text>".len());
        for (index, word) in words.split(' ').enumerate() {
            if index > 0 {
                self.0.push(' ');
            }
            let figure = is_figure(word);
            if figure {
                self.0.push_str("<tspan class=\"d-fig\">");
            }
            escape(&mut self.0, word);
            if figure {
                self.0.push_str("</tspan>");
            }
        }
        self.0.push_str("</text>");
    }

    /// The finished drawing.
    pub(crate) fn finish(mut self) -> String {
        self.0.push_str("</svg>");
        self.0
    }
}

/// Whether a word of a label is set as a figure.
pub(crate) fn is_figure(word: &str) -> bool {
    word.trim_start_matches(['+', '-', '−', '±', 'Ø', 'M'])
        .starts_with(|c: char| c.is_ascii_digit())
}

/// Lettering as SVG wants it, whatever was typed.
fn escape(out: &mut String, words: &str) {
    for letter in words.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // SVG is XML, which forbids the other control characters.
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(value: f64) -> String {
        let mut out = String::new();
        number(&mut out, value);
        out
    }

    #[test]
    fn numbers_are_short_and_right() {
        for (value, text) in [
            (0.0, "0"),
            (-0.001, "0"),
            (0.5, ".5"),
            (-0.25, "-.25"),
            (12.0, "12"),
            (3.1449, "3.14"),
            (-7.005, "-7.01"),
            (99.999, "100"),
            (f64::NAN, "0"),
        ] {
            assert_eq!(written(value), text, "{value}");
        }
        for hundredths in -12_345..12_345 {
            let value = f64::from(hundredths) / 100.0;
            assert_eq!(written(value).parse::<f64>().unwrap(), value);
        }
    }

    #[test]
    fn lettering_cannot_break_the_drawing() {
        let mut sheet = Sheet::new("x", 1.0, 1.0, "\"<&>\u{0}");
        sheet.label(Stand::Start, at(0.0, 0.0), "<b> & 40 \"x\"");
        let svg = sheet.finish();
        assert!(svg.contains("aria-label=\"&quot;&lt;&amp;&gt; \""));
        assert!(svg.contains("&lt;b&gt; &amp; <tspan class=\"d-fig\">40</tspan> &quot;x&quot;"));
    }

    #[test]
    fn thousands_are_parted() {
        for (count, text) in
            [(7, "7"), (999, "999"), (1030, "1030"), (1_234_567, "1\u{202f}234\u{202f}567")]
        {
            assert_eq!(grouped(count), text);
        }
    }
}
