//! Scratch.
use engine::answers::{answers, Inputs};
fn main() {
    for path in std::env::args().skip(1) {
        let bytes = std::fs::read(&path).unwrap();
        match answers(&Inputs { build: &bytes, system: None }) {
            Ok(a) => {
                for row in a.rows.iter() { println!("{:40} {:20} {:?} {}", row.path, row.shown(a.system), row.origin, row.reason.inputs.iter().filter(|i| i.path.is_empty()).map(|i| i.name.clone()).collect::<Vec<_>>().join(",")); }
                for c in &a.checks { println!("{:?} {} {:?}", c.state, c.sentence(a.system), c.leans_on); }
            }
            Err(p) => for p in p.all() { println!("{p}"); }
        }
    }
}
