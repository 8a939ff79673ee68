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
