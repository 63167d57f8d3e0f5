import './style.css';

// In parts, side by side: see the bundle's configuration.
void import('./main.ts');
