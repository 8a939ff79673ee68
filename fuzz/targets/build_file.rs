//! Any bytes as a build file: answered or refused in words, every body closed.
#![no_main]

use engine::answers::{Inputs, answers, bodies};
use engine::units::Length;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|build: &[u8]| {
    let inputs = Inputs { build, system: None };
    match answers(&inputs) {
        Ok(_) => {
            let Ok(solids) = bodies(&inputs, Length::mm(5.0)) else { panic!("answered, then refused") };
            for body in solids.bodies {
                assert_eq!(body.mesh.open_edges(), 0, "{} is open", body.path);
            }
        }
        Err(problems) => assert!(problems.all().iter().all(|problem| !problem.message.is_empty())),
    }
});
