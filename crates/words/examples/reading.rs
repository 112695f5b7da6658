//! Prints how a question file is read: `cargo run -p words --example reading -- FILE...`.
fn main() {
    for file in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&file).unwrap_or_default();
        let r = words::read(&text);
        let bad = r.diagnostics.iter().filter(|d| d.refusal.is_some()).count();
        println!("== {file}: {}", if bad == 0 { "ok" } else { "REFUSED" });
        for d in &r.diagnostics {
            let at: Vec<&str> = d.spans.iter().map(|s| s.of(&text)).collect();
            println!("   {:?} {} {at:?}", d.refusal, d.message);
        }
        if std::env::var("FULL").is_ok() {
            for n in &r.notes {
                println!("   {:?} -> {}", n.span.of(&text), n.means);
            }
            println!("{:#?}", r.situation);
        }
    }
}
