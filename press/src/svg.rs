//! Writes drawings as SVG text: elements with attributes, paths from polylines, lettering, groups.

mod escaped;
mod number;

use std::borrow::Cow;
use std::fmt;

use crate::fonts::Face;
use crate::lettering::{runs, width};
pub use escaped::escaped;
pub use number::number;
use number::{write_number, written};

/// The font families every drawing asks for; see `fonts.rs`.
const FAMILIES: &str = "Cabin, 'DejaVu Sans', sans-serif";

/// A finished drawing on its sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Svg {
    width_mm: f64,
    height_mm: f64,
    window: [f64; 4],
    title: String,
    definitions: Vec<Element>,
    content: Vec<Element>,
}

impl Svg {
    /// An empty sheet of `width_mm` by `height_mm` whose unit is the millimetre of paper, y downwards, origin in the
    /// upper left corner. `title` is what a screen reader says in place of the picture.
    #[must_use]
    pub fn sheet(width_mm: f64, height_mm: f64, title: &str) -> Svg {
        Svg {
            width_mm,
            height_mm,
            window: [0.0, 0.0, width_mm, height_mm],
            title: title.to_owned(),
            definitions: Vec::new(),
            content: Vec::new(),
        }
    }

    /// The same sheet seen through another window: least x, least y, width and height in the drawing's own units.
    #[must_use]
    pub fn through(mut self, window: [f64; 4]) -> Svg {
        self.window = window;
        self
    }

    /// Puts an element on top of what is there.
    pub fn push(&mut self, element: Element) {
        self.content.push(element);
    }

    /// Adds a pattern, marker or clip that elements name by its `id`; it is not drawn itself.
    pub fn define(&mut self, element: Element) {
        self.definitions.push(element);
    }

    /// Width of the sheet in millimetres.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.width_mm
    }

    /// Height of the sheet in millimetres.
    #[must_use]
    pub fn height_mm(&self) -> f64 {
        self.height_mm
    }
}

impl fmt::Display for Svg {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [left, top, width, height] = self.window.map(number);
        let root = Element::named("svg")
            .with("xmlns", "http://www.w3.org/2000/svg")
            .with("width", format!("{}mm", number(self.width_mm)))
            .with("height", format!("{}mm", number(self.height_mm)))
            .with("viewBox", format!("{left} {top} {width} {height}"))
            .with("role", if self.content.iter().any(Element::has_link) { "group" } else { "img" })
            .with("font-family", FAMILIES);
        root.opened(out)?;
        write!(out, ">\n<title>{}</title>", escaped(&self.title))?;
        if !self.definitions.is_empty() {
            out.write_str("\n<defs>")?;
            for definition in &self.definitions {
                write!(out, "\n{definition}")?;
            }
            out.write_str("\n</defs>")?;
        }
        for element in &self.content {
            write!(out, "\n{element}")?;
        }
        out.write_str("\n</svg>\n")
    }
}

/// A run of points of a path, in drawing units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Run<'a> {
    /// Ends where its last point is.
    Open(&'a [[f64; 2]]),
    /// Returns to its first point; runs inside others are holes.
    Closed(&'a [[f64; 2]]),
}

/// One SVG element with its attributes and what stands inside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, Value)>,
    words: String,
    children: Vec<Element>,
}

impl Element {
    /// An empty element of any name.
    #[must_use]
    pub fn named(name: &'static str) -> Element {
        Element { name, attributes: Vec::new(), words: String::new(), children: Vec::new() }
    }

    /// A straight line between two points.
    #[must_use]
    pub fn line(from: [f64; 2], to: [f64; 2]) -> Element {
        Element::named("line").with("x1", from[0]).with("y1", from[1]).with("x2", to[0]).with("y2", to[1])
    }

    /// A path of one or more runs; holes are left unfilled whichever way they turn. Not filled unless `fill` is given.
    #[must_use]
    pub fn path(runs: &[Run]) -> Element {
        Element::named("path").with("d", path_data(runs)).with("fill", "none").with("fill-rule", "evenodd")
    }

    /// An open chain of lines, not filled.
    #[must_use]
    pub fn polyline(points: &[[f64; 2]]) -> Element {
        Element::path(&[Run::Open(points)])
    }

    /// A closed outline, not filled unless `fill` is given.
    #[must_use]
    pub fn polygon(points: &[[f64; 2]]) -> Element {
        Element::path(&[Run::Closed(points)])
    }

    /// A circle.
    #[must_use]
    pub fn circle(centre: [f64; 2], radius: f64) -> Element {
        Element::named("circle").with("cx", centre[0]).with("cy", centre[1]).with("r", radius)
    }

    /// An upright rectangle by its upper left corner, width and height.
    #[must_use]
    pub fn rectangle(corner: [f64; 2], width: f64, height: f64) -> Element {
        Element::named("rect").with("x", corner[0]).with("y", corner[1]).with("width", width).with("height", height)
    }

    /// One line of text that starts at `at` on its baseline; `size` is the height of the em in drawing units.
    ///
    /// Signs that the text face lacks are set in the face that lends them, each run at its own measured place: a viewer
    /// that chose for itself would set the whole line in the other face. To centre a line, start it half of its
    /// `lettering::width` to the left; `text-anchor` would move each run by itself.
    #[must_use]
    pub fn text(at: [f64; 2], size: f64, words: &str) -> Element {
        let line = Element::named("text").with("x", at[0]).with("y", at[1]).with("font-size", size);
        let parts = runs(words);
        if let [(Face::Text, whole)] = parts.as_slice() {
            return line.words(whole);
        }
        let mut x = at[0];
        parts.into_iter().fold(line, |line, (face, part)| {
            let span = Element::named("tspan").with("x", x).words(part);
            x += width(part, size);
            line.child(match face {
                Face::Text => span,
                lent => span.with("font-family", lent.family()),
            })
        })
    }

    /// Elements kept together, in drawing order.
    #[must_use]
    pub fn group(children: Vec<Element>) -> Element {
        Element { children, ..Element::named("g") }
    }

    /// The same element with an attribute set; a value set before is replaced.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<Value>) -> Element {
        let value = value.into();
        match self.attributes.iter_mut().find(|(known, _)| *known == name) {
            Some(attribute) => attribute.1 = value,
            None => self.attributes.push((name, value)),
        }
        self
    }

    /// The same element naming the row or part it shows, so that page and tests can find it.
    #[must_use]
    pub fn data_path(self, path: &str) -> Element {
        self.with("data-path", path.to_owned())
    }

    /// The same element turned by `degrees` clockwise (as seen, y downwards) about a point.
    #[must_use]
    pub fn turned(self, degrees: f64, about: [f64; 2]) -> Element {
        let [x, y] = about.map(number);
        self.with("transform", format!("rotate({} {x} {y})", number(degrees)))
    }

    /// The same element with one more child, drawn last.
    #[must_use]
    pub fn child(mut self, child: Element) -> Element {
        self.children.push(child);
        self
    }

    /// The same element with these words as its text.
    #[must_use]
    pub fn words(mut self, words: &str) -> Element {
        words.clone_into(&mut self.words);
        self
    }

    fn has_link(&self) -> bool {
        self.name == "a" || self.children.iter().any(Element::has_link)
    }

    /// Its opening tag, without the sign that ends it.
    fn opened(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("<")?;
        out.write_str(self.name)?;
        for (name, value) in &self.attributes {
            for part in [" ", name, "=\""] {
                out.write_str(part)?;
            }
            fmt::Display::fmt(value, out)?;
            out.write_str("\"")?;
        }
        Ok(())
    }
}

impl fmt::Display for Element {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.opened(out)?;
        if self.children.is_empty() && self.words.is_empty() {
            return out.write_str("/>");
        }
        out.write_str(">")?;
        out.write_str(&escaped(&self.words))?;
        // A line break inside a text element would be drawn as a blank.
        let apart = if self.name == "text" { "" } else { "\n" };
        for child in &self.children {
            out.write_str(apart)?;
            child.fmt(out)?;
        }
        if !self.children.is_empty() {
            out.write_str(apart)?;
        }
        ["</", self.name, ">"].into_iter().try_for_each(|part| out.write_str(part))
    }
}

/// An attribute's value: a number in drawing units, or text. Most are numbers, which become text only in the file.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Written with at most two decimals.
    Number(f64),
    /// Written as it may stand in SVG.
    Text(Cow<'static, str>),
}

impl fmt::Display for Value {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Value::Number(number) => written(*number, |digits| out.write_str(digits)),
            Value::Text(text) => out.write_str(&escaped(text)),
        }
    }
}

impl From<f64> for Value {
    fn from(value: f64) -> Value {
        Value::Number(value)
    }
}

impl From<&'static str> for Value {
    fn from(value: &'static str) -> Value {
        Value::Text(value.into())
    }
}

impl From<String> for Value {
    fn from(value: String) -> Value {
        Value::Text(value.into())
    }
}

/// The `d` attribute of a path through these runs; a run of fewer than two points draws nothing.
#[must_use]
pub fn path_data(runs: &[Run]) -> String {
    let mut data = String::new();
    for run in runs {
        let (points, end) = match run {
            Run::Open(points) => (points, ""),
            Run::Closed(points) => (points, "Z"),
        };
        if points.len() < 2 {
            continue;
        }
        for (index, point) in points.iter().enumerate() {
            data.push_str(match index {
                0 => "M",
                1 => "L",
                _ => " ",
            });
            write_number(&mut data, point[0]);
            data.push(' ');
            write_number(&mut data, point[1]);
        }
        data.push_str(end);
    }
    data
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        let shown = [0.0, -0.0, -0.004, 1.0, -1.5, 2.345, 2.0 / 3.0, 120.0, 1e7];
        let written = ["0", "0", "0", "1", "-1.5", "2.35", "0.67", "120", "10000000"];
        assert_eq!(shown.map(number), written.map(str::to_owned));
        assert_eq!(number(f64::NAN), "0");
    }

    #[test]
    fn a_path_holds_its_runs_and_leaves_out_single_points() {
        let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]];
        let data = path_data(&[Run::Closed(&square), Run::Open(&square[..2]), Run::Open(&square[..1])]);
        assert_eq!(data, "M0 0L10 0 10 10 0 10ZM0 0L10 0");
    }

    #[test]
    fn words_cannot_break_out_of_the_markup() {
        let text = Element::text([1.0, 2.0], 3.5, "stone <b> & \"lime\"\u{7}");
        assert_eq!(
            text.to_string(),
            "<text x=\"1\" y=\"2\" font-size=\"3.5\">stone &lt;b&gt; &amp; &quot;lime&quot;</text>"
        );
    }

    #[test]
    fn a_borrowed_sign_names_its_face_and_the_rest_follows_it() {
        let text = Element::text([2.0, 0.0], 3.0, "≤ 6").to_string();
        let after = number(2.0 + width("≤", 3.0));
        assert_eq!(
            text,
            format!(
                "<text x=\"2\" y=\"0\" font-size=\"3\"><tspan x=\"2\" font-family=\"DejaVu Sans\">≤</tspan>\
                 <tspan x=\"{after}\"> 6</tspan></text>"
            )
        );
    }

    #[test]
    fn an_attribute_set_twice_keeps_the_last_value_and_its_place() {
        let shape = Element::circle([0.0, 0.0], 1.0).with("r", 2.0).data_path("poles.north");
        assert_eq!(shape.to_string(), "<circle cx=\"0\" cy=\"0\" r=\"2\" data-path=\"poles.north\"/>");
    }

    #[test]
    fn a_sheet_is_sized_in_millimetres() {
        let mut svg = Svg::sheet(120.0, 80.5, "Plan");
        svg.push(Element::group(vec![Element::line([0.0, 0.0], [1.0, 1.0])]));
        assert_eq!(
            svg.to_string(),
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"120mm\" height=\"80.5mm\" viewBox=\"0 0 120 80.5\" \
             role=\"img\" font-family=\"Cabin, 'DejaVu Sans', sans-serif\">\n<title>Plan</title>\n\
             <g>\n<line x1=\"0\" y1=\"0\" x2=\"1\" y2=\"1\"/>\n</g>\n</svg>\n"
        );
    }
}
