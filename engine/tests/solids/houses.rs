//! The bodies of whole builds: closed, as large as their rows say, apart from each other.

use engine::answers::{Computed, Inputs, compute};
use engine::solids::Solids;
use engine::units::Length;

use super::edit::BUILDS;
use super::support;

fn computed(text: &str) -> Computed {
    let inputs = Inputs { build: text.as_bytes(), system: None };
    compute(&inputs).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn made(text: &str, chord: Length) -> Solids {
    computed(text).bodies(chord)
}

#[test]
fn every_part_of_a_build_has_a_closed_body_as_large_as_its_row() {
    for (name, text) in BUILDS {
        for chord in [5.0, 1.0] {
            let solids = made(text, Length::mm(chord));
            assert!(solids.left_out.is_empty(), "{name}: {:?}", solids.left_out);
            for body in &solids.bodies {
                let (found, row) = (body.mesh.volume(), body.volume.unwrap().in_m3());
                assert_eq!(body.mesh.open_edges(), 0, "{name}: {} is open", body.path);
                assert!(row > 0.0 && (found - row).abs() <= chord * 1e-3 * row, "{name}: {} {found} {row}", body.path);
            }
        }
    }
}

#[test]
fn a_lift_whose_openings_touch_is_drawn_all_the_same() {
    let begun = engine::build::begin("rounded", "5 m", "3.6 m", "", "metric").unwrap();
    let first = &begun[begun.find("[openings.window]").unwrap()..];
    let value = |key: &str| first.lines().find(|line| line.starts_with(key)).unwrap();
    let (run, middle) = (value("run"), value("along").split('"').nth(1).unwrap());
    let middle = Length::parse(middle).unwrap().in_m();
    // Its head is as high as that of the first window, whose lintel lies on the cob beside it.
    for beside in [0.62, 0.7, 0.8] {
        let along = ((middle + beside) * 1000.0).round();
        let second = format!(
            "[openings.window-2]\nkind = \"window\"\n{run}\nalong = \"{along} mm\"\nwidth = \"600 mm\"\nheight = \"600 mm\"\n\
             sill = \"900 mm\"\n\n"
        );
        let text = begun.replace("[openings.window]", &format!("{second}[openings.window]"));
        let solids = made(&text, Length::mm(1.0));
        assert!(solids.left_out.is_empty(), "{beside} m: {:?}", solids.left_out);
        let lifts: Vec<_> = solids.bodies.iter().filter(|body| body.path.starts_with("wall.lifts.")).collect();
        assert_eq!(lifts.len(), 5);
        for body in lifts {
            let (found, row) = (body.mesh.volume(), body.volume.unwrap().in_m3());
            assert!(body.mesh.open_edges() == 0 && (found - row).abs() <= 3e-3 * row, "{}: {found} {row}", body.path);
        }
    }
}

#[test]
fn the_first_cut_of_every_roof_is_closed_bodies_and_every_house_has_its_pictures() {
    for (name, text) in BUILDS {
        let house = computed(text);
        let roof = house.roof_bodies();
        assert_eq!(roof.is_empty(), !text.contains("\n[roof]"), "{name}");
        for body in &roof {
            let is_placed = body.mesh.points.iter().flatten().all(|value| value.is_finite());
            assert!(is_placed && body.mesh.open_edges() == 0 && body.mesh.volume() > 0.0, "{name}: {}", body.path);
        }
        let pictures = house.pictures();
        let views = pictures.elevations.iter().map(|one| &one.view).chain([&pictures.exploded.view]);
        for view in views {
            assert!(view.faces.len() > 20, "{name}");
            let places = view.faces.iter().flat_map(|face| &face.points).flatten();
            assert!(places.into_iter().all(|value| value.is_finite()), "{name}");
        }
    }
}

#[test]
fn a_general_library_finds_every_body_sound_and_as_large() {
    for (name, text) in BUILDS {
        for body in made(text, Length::mm(5.0)).bodies {
            let (is_sound, volume, crosses) = support::library(&body.mesh);
            assert!(is_sound && !crosses, "{name}: {}", body.path);
            let own = body.mesh.volume();
            assert!((volume - own).abs() < 1e-9 * own, "{name}: {} holds {own}, not {volume}", body.path);
        }
    }
}

#[test]
fn bodies_that_touch_do_not_overlap() {
    for (name, text) in BUILDS {
        let solids = made(text, Length::mm(1.0));
        for (place, body) in solids.bodies.iter().enumerate() {
            for other in &solids.bodies[..place] {
                // Faces that follow the same curve by other chords may cross by as much as these are off.
                let least = body.volume.unwrap().in_m3().min(other.volume.unwrap().in_m3());
                let common = support::common(&body.mesh, &other.mesh);
                assert!(common < 2e-3 * least, "{name}: {} and {} have {common} m³", body.path, other.path);
            }
        }
    }
}
