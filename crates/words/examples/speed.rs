//! Times the reading of question files: `cargo run --release -p words --example speed -- FILE...`.
fn main() {
    let texts: Vec<String> =
        std::env::args().skip(1).filter_map(|f| std::fs::read_to_string(f).ok()).collect();
    let rounds = 20;
    let mut all: Vec<(f64, usize)> = Vec::new();
    for t in &texts {
        let start = std::time::Instant::now();
        for _ in 0..rounds {
            std::hint::black_box(words::read(t));
        }
        all.push((start.elapsed().as_secs_f64() / f64::from(rounds) * 1e6, t.split_whitespace().count()));
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let per_word: f64 = all.iter().map(|a| a.0).sum::<f64>() / all.iter().map(|a| a.1 as f64).sum::<f64>();
    println!(
        "median {:.0} us, worst {:.0} us, {:.2} us a word",
        all[all.len() / 2].0,
        all[all.len() - 1].0,
        per_word
    );
}
