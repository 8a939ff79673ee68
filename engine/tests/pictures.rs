//! The roof of pictures against its rows, the roof that is cut, and what the parts pulled apart are called.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use builds::{BURDOCK_RISE, PLAIN_RING, SPIRAL_WALL, TANSY_BANK};
use engine::answers::{Answers, Computed, Inputs, answers, compute};
use engine::house::part::Material;
use engine::pictures::{Choice, LayerCut, SoilStays};
use kurbo::Point;

const ROUND_AN_EYE: &str = r#"
[roof]
kind = "reciprocal"
overhang = "500 mm"
eye = "600 mm"
[poles]
count = 8
diameter = "150 mm"
"#;
const ONE_WAY: &str = r#"
[roof]
kind = "one-way"
overhang = "500 mm"
pitch = "1:8"
falls = "180 deg"
spacing = "600 mm"
[poles]
diameter = "150 mm"
"#;
const BOARDS: &str = r#"
[[roof.layers]]
name = "boards"
of = "boards"
thickness = "30 mm"
saturated = "500 kg/m3"
"#;
const MEMBRANE: &str = r#"
[[roof.layers]]
name = "membrane"
of = "membrane"
mass = "2 kg/m2"
"#;
const SOIL: &str = r#"
[[roof.layers]]
name = "soil"
of = "soil"
thickness = "100 mm"
saturated = "1900 kg/m3"
"#;

fn computed(text: &str) -> Computed {
    compute(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

/// A row in its SI unit.
fn row(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no row {path}")).quantity.si().unwrap()
}

fn roofed(roof: &str, layers: &[&str]) -> String {
    [PLAIN_RING, roof].iter().chain(layers).copied().collect()
}

fn levels(points: &[[f64; 3]]) -> [f64; 2] {
    let levels = points.iter().map(|point| point[2]);
    levels.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], level| [low.min(level), high.max(level)])
}

#[test]
fn poles_and_layers_of_a_roof_are_closed_and_hold_what_their_rows_say() {
    let round = roofed(ROUND_AN_EYE, &[BOARDS, MEMBRANE, SOIL]);
    let one_way = roofed(ONE_WAY, &[BOARDS, MEMBRANE, SOIL]);
    for text in [TANSY_BANK, BURDOCK_RISE, &round, &one_way] {
        let (answers, bodies) = (answered(text), computed(text).roof_bodies());
        let mut poles = 0.0;
        for body in &bodies {
            assert_eq!(body.mesh.open_edges(), 0, "{}", body.path);
            let is_sheet = body.material == "sheet";
            assert_eq!(body.volume.is_none(), is_sheet, "{}", body.path);
            let Some(said) = body.volume.map(|volume| volume.in_m3()) else { continue };
            let found = body.mesh.volume();
            assert!((found - said).abs() < 5e-3 * said, "{}: {found} m³, its row says {said}", body.path);
            if body.path == "roof.poles" {
                poles += said;
            } else {
                assert_eq!(said, row(&answers, &format!("{}.volume", body.path)), "{}", body.path);
            }
        }
        let measured: Vec<f64> =
            answers.rows.matching("roof.places.*.wood").filter_map(|row| row.quantity.si()).collect();
        let wood = if measured.is_empty() { row(&answers, "roof.poles.volume") } else { measured.iter().sum() };
        assert!((poles - wood).abs() < 1e-9 * wood, "{poles} and {wood}");
    }
}

#[test]
fn layers_round_an_eye_begin_on_the_poles_at_the_eave_and_end_on_them_at_the_eye() {
    let text = roofed(ROUND_AN_EYE, &[BOARDS]);
    let (answers, bodies) = (answered(&text), computed(&text).roof_bodies());
    let boards = bodies.iter().find(|body| body.path == "roof.layers.boards").unwrap();
    let pitch = row(&answers, "roof.pitch");
    let deep = row(&answers, "poles.diameter") / pitch.cos();
    let along = |from_support: f64| row(&answers, "wall.height") + deep + from_support * pitch.tan();
    let [low, high] = levels(&boards.mesh.points);
    let eave = along(-row(&answers, "roof.support-to-eave"));
    assert!((low - eave).abs() < 1e-6, "boards begin at {low}, the poles' tops at the eave lie at {eave}");
    // Between its two crossings a pole runs along the eye: the boards end between the two.
    let first = row(&answers, "roof.to-first-crossing");
    let [from, to] = [first, first + row(&answers, "roof.between-crossings")].map(along);
    let top = high - 0.03 / pitch.cos();
    assert!(from < top && top < to, "{top} lies between {from} and {to}");
    let poles: Vec<f64> =
        bodies.iter().filter(|body| body.path == "roof.poles").map(|body| levels(&body.mesh.points)[0]).collect();
    assert_eq!(poles.len(), 8);
    assert!(poles.iter().all(|lowest| *lowest < low), "poles lie below the boards");
}

#[test]
fn rafters_lie_on_the_wall_at_its_low_side_and_fall_on_to_the_eave() {
    let text = roofed(ONE_WAY, &[BOARDS]);
    let (answers, bodies) = (answered(&text), computed(&text).roof_bodies());
    let boards = bodies.iter().find(|body| body.path == "roof.layers.boards").unwrap();
    let deep = row(&answers, "poles.diameter") / row(&answers, "roof.angle").cos();
    let out = row(&answers, "roof.eave-offset") - row(&answers, "roof.plate-offset");
    let low = row(&answers, "wall.height") + deep - out / 8.0;
    let found = levels(&boards.mesh.points)[0];
    assert!((found - low).abs() < 1e-6, "boards begin at {found}, not {low}");
    let poles: Vec<_> = bodies.iter().filter(|body| body.path == "roof.poles").collect();
    assert_eq!(poles.len() as f64, row(&answers, "roof.poles.count"));
    let middles = poles
        .iter()
        .map(|pole| pole.mesh.points.iter().map(|point| point[1]).sum::<f64>() / pole.mesh.points.len() as f64);
    let [first, last] = middles.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], y| [low.min(y), high.max(y)]);
    let across = row(&answers, "roof.plate-across");
    assert!((last - first - across).abs() < 1e-6, "the outermost lie {} apart, the side walls {across}", last - first);
}

#[test]
fn only_over_a_sheet_lies_soil_and_boards_alone_are_timber() {
    for roof in [ROUND_AN_EYE, ONE_WAY] {
        for (layers, wanted) in [
            (vec![BOARDS], vec!["timber"]),
            (vec![BOARDS, SOIL], vec!["timber", "insulation"]),
            (vec![BOARDS, MEMBRANE], vec!["timber", "sheet"]),
            (vec![MEMBRANE, SOIL], vec!["sheet", "soil"]),
        ] {
            let bodies = computed(&roofed(roof, &layers)).roof_bodies();
            let found: Vec<&str> =
                bodies.iter().filter(|body| body.path != "roof.poles").map(|body| body.material).collect();
            assert_eq!(found, wanted, "{layers:?}");
        }
    }
}

/// Area of a piece, in m².
fn area(piece: &LayerCut) -> f64 {
    let outline: Vec<Point> = piece.under.iter().chain(piece.over.iter().rev()).copied().collect();
    let next = outline.iter().cycle().skip(1);
    0.5 * outline.iter().zip(next).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>()
}

#[test]
fn a_roof_is_cut_where_the_section_passes_and_no_roof_is_not() {
    assert_eq!(answered(PLAIN_RING).roof_cut, None);
    assert_eq!(answered(SPIRAL_WALL).roof_cut, None);
    let one_way = answered(&roofed(ONE_WAY, &[BOARDS, MEMBRANE, SOIL]));
    let cut = one_way.roof_cut.clone().unwrap();
    assert_eq!(
        cut.layers.iter().map(|layer| layer.material).collect::<Vec<_>>(),
        [Material::Timber, Material::Sheet, Material::Soil]
    );
    // The section of a round house passes through its middle: it cuts as much as the eave is wide.
    let wide = 2.0 * (2.0 + row(&one_way, "roof.eave-offset"));
    let thick = 0.03 / row(&one_way, "roof.angle").cos();
    let found = area(&cut.layers[0]);
    assert!((found - wide * thick).abs() < 3e-3 * found, "{found} m² of boards, not {}", wide * thick);
    // The door is in the south and the roof falls to the west: almost every rafter is cut across.
    assert_eq!(cut.cut.len() as f64, row(&one_way, "roof.poles.count"));
    let round = answered(&roofed(ROUND_AN_EYE, &[BOARDS]));
    let cut = round.roof_cut.unwrap();
    assert_eq!(cut.layers.len(), 2, "boards on both sides of the eye");
    let [left, right] = [&cut.layers[0], &cut.layers[1]].map(|layer| [layer.under[0], *layer.under.last().unwrap()]);
    assert!(left[0].y < left[1].y && right[0].y > right[1].y, "they rise to the eye: {left:?} {right:?}");
    let eye = right[0].x - left[1].x;
    assert!(eye > 1.1 && eye < 1.2 + 1e-9, "the eye is 1.2 m wide from corner to corner, found {eye}");
    assert!(cut.beyond.len() >= 4 && cut.beyond.len() <= 8, "{} of 8 poles", cut.beyond.len());
}

#[test]
fn a_gap_under_the_rafters_is_told_where_the_wall_stays_below_them() {
    let along = ONE_WAY.replace("180 deg", "270 deg");
    let answers = answered(&roofed(&along, &[BOARDS]));
    let cut = answers.roof_cut.clone().unwrap();
    assert_eq!(cut.open.len(), 1, "{:?}", cut.open);
    let [foot, head] = cut.open[0];
    let rise = row(&answers, "roof.rise");
    assert!((foot.y - 2.0).abs() < 1e-9 && (head.y - foot.y - rise).abs() < 0.01 * rise, "{foot:?} {head:?} {rise}");
}

#[test]
fn only_what_has_a_body_is_named_among_the_parts_pulled_apart() {
    let built_in = r#"
[built-in.sun]
kind = "mosaic"
side = "outside"
area = "0.5 m2"
tile = "7 mm"
joints = "20 %"
[built-in.seat]
kind = "bench"
run = "east"
from = "1 m"
to = "3 m"
depth = "450 mm"
seat = "450 mm"
"#;
    let pictures = computed(&[PLAIN_RING, built_in].concat()).pictures();
    let group = pictures.exploded.groups.iter().find(|group| group.path == "built-in").unwrap();
    assert_eq!(group.name, "seat");
}

#[test]
fn of_the_rings_of_equal_poles_only_those_are_shaded_whose_soil_stays() {
    let choice = |friction: f64| {
        let text = TANSY_BANK.replace("friction = \"24 deg\"", &format!("friction = \"{friction} deg\""));
        let bare = text.replace("\nbattens = {", "\n# battens = {");
        assert!(friction == 24.0 || text != TANSY_BANK);
        assert_ne!(bare, text);
        computed(&bare).pictures().choice.unwrap()
    };
    let steepest_shaded = |choice: &Choice| {
        let pitches = choice.panels.iter().flat_map(|panel| &panel.works).map(|point| point.y);
        pitches.reduce(f64::max)
    };
    let [grips, some, slides] = [59.0, 24.0, 8.0].map(choice);
    assert_eq!((grips.soil, steepest_shaded(&grips)), (SoilStays::AtEvery, Some(36.0)));
    let SoilStays::UpTo(steepest) = some.soil else { panic!("{:?}", some.soil) };
    // Safety is tan(friction) / tan(pitch), of which the rulebook wants 1.5.
    assert!((steepest - (24_f64.to_radians().tan() / 1.5).atan().to_degrees()).abs() < 1e-9, "{steepest}");
    assert_eq!(steepest_shaded(&some), Some(16.5));
    assert_eq!((slides.soil, steepest_shaded(&slides)), (SoilStays::AtNone, None), "tan(8 deg) / tan(6 deg) is 1.34");
}
