//! What is seen of bodies, painted from back to front: fills by material and light, lines where the engine wants them.

use engine::house::part::Material;
use engine::pictures::View;
use engine::polygon::bounds;
use engine::view::{Face, Shade};
use kurbo::{Point, Rect};

use super::hatch::{self, Light};
use super::sheet::Sheet;
use crate::paper::INK;
use crate::svg::{Element, Run, path_data};

/// Where there is less of a fill, in square millimetres, it has no marks.
const MARKED: f64 = 3.0;

/// The smallest upright box round what is seen, in metres.
pub(super) fn extent(view: &View) -> Option<Rect> {
    let points = view.faces.iter().flat_map(|face| &face.points).map(|&[x, y]| Point::new(x, y));
    (!view.faces.is_empty()).then(|| bounds(points))
}

/// Faces that are filled alike and lie on each other in any order, and the lines that are drawn over them.
#[derive(Default)]
struct Batch {
    fills: Vec<Vec<[f64; 2]>>,
    lines: Vec<Vec<[f64; 2]>>,
}

/// Draws what is seen, its lines of a width in millimetres.
pub(super) fn draw(sheet: &mut Sheet, view: &View, width: f64) {
    let kind = |face: &Face| (face.body, light(face.shade));
    let mut kinds: Vec<(Material, Light)> = Vec::new();
    for face in &view.faces {
        let filled = (view.parts[face.body].material, light(face.shade));
        if !kinds.contains(&filled) {
            kinds.push(filled);
        }
    }
    for (material, light) in kinds {
        sheet.define(hatch::marks(material, light));
    }
    let mut batch = Batch::default();
    let mut painted = Vec::new();
    for (place, face) in view.faces.iter().enumerate() {
        let points: Vec<[f64; 2]> = face.points.iter().map(|&[x, y]| sheet.at(Point::new(x, y))).collect();
        batch.lines.extend(lines(&points, &face.edges));
        batch.fills.push(points);
        let next = view.faces.get(place + 1);
        // Lines of one face may lie under the next: only what has none waits for more of its kind.
        if !batch.lines.is_empty() || next.is_none_or(|next| kind(next) != kind(face)) {
            painted.extend(paint(view, face, &std::mem::take(&mut batch)));
        }
    }
    // Said once for all lines, which are half of so many paths.
    let all = Element::group(painted).with("fill", "none").with("stroke-width", width);
    sheet.push(all.with("stroke-linecap", "round").with("stroke-linejoin", "round"));
}

/// Fill, marks and lines of a batch; their width is that of all lines.
fn paint(view: &View, face: &Face, batch: &Batch) -> Vec<Element> {
    let (part, light) = (&view.parts[face.body], light(face.shade));
    let path = |data: String| Element::named("path").with("d", data);
    let runs: Vec<Run<'_>> = batch.fills.iter().map(|points| Run::Closed(points)).collect();
    let data = path_data(&runs);
    let tint = hatch::tint(part.material, light);
    // The foot of a buttress has a body of its own and no name.
    let of_thing = part.path.strip_suffix(".stone").unwrap_or(&part.path);
    let is_marked = batch.fills.iter().map(|points| area(points)).sum::<f64>() > MARKED;
    let marks =
        is_marked.then(|| path(data.clone()).with("fill", format!("url(#{})", hatch::name(part.material, light))));
    // The border in its own colour reaches over what would show between two fills.
    let mut painted = vec![path(data).with("fill", tint.clone()).with("stroke", tint).data_path(of_thing)];
    painted.extend(marks);
    if !batch.lines.is_empty() {
        let runs: Vec<Run<'_>> = batch.lines.iter().map(|points| Run::Open(points)).collect();
        painted.push(path(path_data(&runs)).with("stroke", INK));
    }
    painted
}

/// Area of a ring of points, in square millimetres.
fn area(points: &[[f64; 2]]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| 0.5 * (a[0] * b[1] - a[1] * b[0])).sum::<f64>().abs()
}

/// The edges that are drawn, joined where one goes on from another.
fn lines(points: &[[f64; 2]], edges: &[bool]) -> Vec<Vec<[f64; 2]>> {
    let count = points.len();
    let mut lines: Vec<Vec<[f64; 2]>> = Vec::new();
    let mut goes_on = false;
    for (place, is_drawn) in edges.iter().enumerate() {
        if *is_drawn {
            let end = points[(place + 1) % count];
            match lines.last_mut().filter(|_| goes_on) {
                Some(line) => line.push(end),
                None => lines.push(vec![points[place], end]),
            }
        }
        goes_on = *is_drawn;
    }
    lines
}

fn light(shade: Shade) -> Light {
    match shade {
        Shade::Above | Shade::Light => Light::Full,
        Shade::Half => Light::Even,
        Shade::Dark => Light::Little,
    }
}
