//! Any bytes as a build file: answered or refused in words, every body closed, every picture drawn.
#![no_main]

use engine::answers::{Inputs, compute};
use engine::units::Length;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|build: &[u8]| {
    let inputs = Inputs { build, system: None };
    match compute(&inputs) {
        Ok(house) => {
            for body in house.bodies(Length::mm(5.0)).bodies.into_iter().chain(house.roof_bodies()) {
                assert_eq!(body.mesh.open_edges(), 0, "{} is open", body.path);
            }
            assert_eq!(house.pictures().elevations.len(), 4);
            house.into_answers();
        }
        Err(problems) => assert!(problems.all().iter().all(|problem| !problem.message.is_empty())),
    }
});
