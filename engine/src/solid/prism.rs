//! Straight prisms: of an outline in plan between two levels, and of an outline seen along an axis between two depths.

use kurbo::Point;

use super::fault::Fault;
use super::fill::fill;
use super::mesh::Mesh;
use super::rim::STEP;
use crate::curve::{Form, Station};

/// The prism of an outline in plan, in metres, walked either way round, between two levels: a layer of a floor.
///
/// # Errors
/// [`Fault::Tangled`] when the outline crosses or touches itself.
pub fn prism(outline: &[Point], [foot, top]: [f64; 2]) -> Result<Mesh, Fault> {
    let ring: Vec<[f64; 2]> = outline.iter().map(|point| [point.x, point.y]).collect();
    extruded(&[ring], |[x, y], end| [x, y, [foot, top][end]])
}

/// The prism of an outline seen along the axis of a station's frame, x and level in metres, less the hole in it, between two
/// depths y to the outside of the line, in metres.
///
/// # Errors
/// [`Fault::Tangled`] when an outline crosses or touches itself or the other.
pub fn across(
    station: Station,
    outline: &[[f64; 2]],
    hole: &[[f64; 2]],
    [inner, outer]: [f64; 2],
) -> Result<Mesh, Fault> {
    let right = -station.axis.turn_90();
    // Seen from outside, from where x runs to the right: the near end is the outer one.
    extruded(&[outline.to_vec(), hole.to_vec()], |[x, level], end| {
        let point = station.point + station.axis * x + right * [inner, outer][end];
        [point.x, point.y, level]
    })
}

/// A frame: what lies between a form and the same form inset by a width, and at its foot by another, between two depths y to
/// the outside of the line in the frame of a station; all in metres. Without a member at its foot it is an upturned U.
///
/// # Errors
/// [`Fault::Tangled`] when the width leaves no form inside.
pub fn frame(
    station: Station,
    form: Form,
    [width, foot]: [f64; 2],
    depths: [f64; 2],
    chord: f64,
) -> Result<Mesh, Fault> {
    let inside = form.inset(width, foot).ok_or(Fault::Tangled)?;
    let [edge, hole] = [form, inside].map(|form| outline(form, chord));
    if foot > 0.0 || matches!(form, Form::Round { .. }) {
        return across(station, &edge, &hole, depths);
    }
    // Out along its outer edge from the right foot to the left, back along its inner one.
    let legs = edge[1..].iter().chain(&edge[..1]).chain(&hole[..1]).chain(hole[1..].iter().rev());
    across(station, &legs.copied().collect::<Vec<_>>(), &[], depths)
}

/// The outline of a form, x and level in metres, counter-clockwise, no farther from the true one than a chord error.
#[must_use]
pub fn outline(form: Form, chord: f64) -> Vec<[f64; 2]> {
    let mut points = match form {
        Form::Round { .. } => Vec::new(),
        _ => vec![[-form.half(), form.bottom()], [form.half(), form.bottom()]],
    };
    let Some([radius, middle]) = form.circle() else {
        points.extend([[form.half(), form.top()], [-form.half(), form.top()]]);
        return points;
    };
    let low = ((form.spring() - middle) / radius).clamp(-1.0, 1.0).asin();
    let sweep = std::f64::consts::PI - 2.0 * low;
    let parts = (sweep / (8.0 * chord / radius).sqrt().min(STEP)).ceil().clamp(3.0, 65536.0) as usize;
    let is_whole = points.is_empty();
    // A round outline ends where it began; an arch without uprights begins and ends at the corners of its sill.
    let ends_at_sill = !is_whole && form.spring() <= form.bottom();
    for part in usize::from(ends_at_sill)..=parts - usize::from(is_whole || ends_at_sill) {
        let angle = low + sweep * part as f64 / parts as f64;
        points.push([radius * angle.cos(), middle + radius * angle.sin()]);
    }
    points
}

/// The body between two copies of a domain; the second is the one seen counter-clockwise from outside.
fn extruded(rings: &[Vec<[f64; 2]>], place: impl Fn([f64; 2], usize) -> [f64; 3]) -> Result<Mesh, Fault> {
    let points: Vec<[f64; 2]> = rings.iter().flatten().copied().collect();
    let mut mesh = Mesh::default();
    let ends: [Vec<u32>; 2] = [0, 1].map(|end| points.iter().map(|&point| mesh.point(place(point, end))).collect());
    let (mut sides, mut start) = (Vec::new(), 0);
    for (index, ring) in rings.iter().enumerate() {
        let twice: f64 = (0..ring.len())
            .map(|at| (ring[at], ring[(at + 1) % ring.len()]))
            .map(|(a, b)| a[0] * b[1] - a[1] * b[0])
            .sum();
        for at in 0..ring.len() {
            let side = [start + at, start + (at + 1) % ring.len()];
            // The body lies to the left of the outline and to the right of the hole.
            sides.push(if (twice > 0.0) == (index == 0) { side } else { [side[1], side[0]] });
        }
        start += ring.len();
    }
    for [a, b, c] in fill(&points, &sides, &[])? {
        mesh.triangle([ends[0][c], ends[0][b], ends[0][a]]);
        mesh.triangle([ends[1][a], ends[1][b], ends[1][c]]);
    }
    for [from, to] in sides {
        mesh.quad([ends[0][from], ends[0][to], ends[1][to], ends[1][from]]);
    }
    Ok(mesh)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Vec2;

    fn station() -> Station {
        let axis = Vec2::new(0.6, 0.8);
        Station { piece: 0, along: 0.0, point: Point::new(3.0, 1.0), axis }
    }

    #[test]
    fn a_layer_of_a_floor_is_closed_whichever_way_its_outline_goes() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.0, 1.0), (0.0, 3.0)].map(|(x, y)| Point::new(x, y));
        for turned in [false, true] {
            let mut outline = corners.to_vec();
            if turned {
                outline.reverse();
            }
            let mesh = prism(&outline, [0.1, 0.3]).unwrap();
            assert_eq!(mesh.open_edges(), 0);
            assert!((mesh.volume() - 8.0 * 0.2).abs() < 1e-12, "{}", mesh.volume());
        }
        assert_eq!(prism(&[corners[0], corners[1], corners[4], corners[2]], [0.0, 1.0]), Err(Fault::Tangled));
    }

    #[test]
    fn a_frame_holds_its_ring_times_its_depth() {
        let forms = [
            Form::Rectangle { half: 0.5, bottom: 0.8, top: 1.7 },
            Form::Round { radius: 0.3, middle: 1.5 },
            Form::Arched { half: 0.4, bottom: 0.8, spring: 1.5, top: 1.9 },
            Form::Arched { half: 0.4, bottom: 0.8, spring: 1.5, top: 1.6 },
        ];
        for form in forms {
            for foot in [0.06, 0.0] {
                let mesh = frame(station(), form, [0.06, foot], [0.02, 0.12], 1e-7).unwrap();
                let exact = (form.area() - form.inset(0.06, foot).unwrap().area()) * 0.1;
                assert_eq!(mesh.open_edges(), 0);
                assert!((mesh.volume() - exact).abs() < 1e-5 * exact, "{form:?}: {} is not {exact}", mesh.volume());
            }
        }
        assert_eq!(frame(station(), forms[1], [0.3; 2], [0.0, 0.1], 1e-3), Err(Fault::Tangled));
    }

    #[test]
    fn a_half_disc_on_its_sill_has_each_corner_once() {
        let form = Form::Arched { half: 0.4, bottom: 1.0, spring: 1.0, top: 1.4 };
        let mesh = across(station(), &outline(form, 1e-6), &[], [0.0, 0.1]).unwrap();
        assert_eq!(mesh.open_edges(), 0);
        assert!((mesh.volume() - 0.1 * form.area()).abs() < 1e-5);
    }
}
