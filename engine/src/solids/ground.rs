//! Bodies of the ground: rubble under the stem, the stem wall, the floor's layers.

use super::{Making, Named};
use crate::build::OpeningKind;
use crate::curve::{Along, Cut};
use crate::house::Of;
use crate::solid::{Band, Sweep, prism};
use crate::units::Length;

pub(super) fn make(made: &mut Making<'_>) {
    rubble(made);
    stem(made);
    floor(made);
}

fn rubble(made: &mut Making<'_>) {
    let house = made.house;
    let Some(trench) = &house.trench else { return };
    let line = &house.wall.line;
    let half = 0.5 * trench.width.value.in_m();
    let top = -house.wall.stem_height.value.in_m();
    let ground = house.ground.value.in_m();
    let profile = |along: f64| {
        let along = if line.is_closed() { along.rem_euclid(line.length()) } else { along };
        let bottom = ground - trench.depth_at(line, along).in_m();
        vec![[-half, bottom], [half, bottom], [half, top], [-half, top]]
    };
    // The bottom turns at the outlet and, on a closed line, at the high end opposite.
    let outlet = line.along_line(trench.outlet);
    let knots = [outlet, (outlet + 0.5 * line.length()).rem_euclid(line.length())];
    let knots = if line.is_closed() { &knots[..] } else { &knots[..1] };
    let mesh = Sweep { line, stretch: None, profile: &profile, knots }.mesh(made.chord);
    made.keep("water.trench".into(), Named::new("rubble under the stem wall", "gravel"), "water.trench.filling", mesh);
}

fn stem(made: &mut Making<'_>) {
    let house = made.house;
    let doors: Vec<Cut> = house
        .openings
        .iter()
        .filter(|opening| opening.kind == OpeningKind::Door && opening.bottom.value < Length::ZERO)
        .map(|door| Cut { form: door.cut.form.below(0.0), ..door.cut })
        .collect();
    let [foot, top] = [-house.wall.stem_height.value.in_m(), 0.0].map(Along::even);
    let band = Band {
        shape: house.wall.stem_shape(),
        foot: &foot,
        top: &top,
        stretch: None,
        cuts: &doors,
        boxes: &[],
        knots: &[],
        chord: made.chord,
    };
    made.keep("wall.stem".into(), Named::new("stem wall", "stone"), "wall.stem.volume", band.mesh());
}

fn floor(made: &mut Making<'_>) {
    let house = made.house;
    let depth: Length = house.floor.iter().map(|layer| layer.thickness.value).sum();
    let outline = house.wall.line.outline(-0.5 * house.wall.stem_width.value.in_m(), made.chord);
    let mut foot = house.floor_level.value - depth;
    for layer in &house.floor {
        let top = foot + layer.thickness.value;
        let mesh = prism(&outline, [foot.in_m(), top.in_m()]);
        let material = match layer.of {
            Of::Recipe(_) => "earth",
            Of::Good(..) => "gravel",
        };
        let name = format!("{} of the floor", layer.name.replace('-', " "));
        made.keep(format!("floor.layers.{}", layer.name), Named::new(name, material), &layer.path("volume"), mesh);
        foot = top;
    }
}
